# Mots du dossier : rapport, dépôt, couches, tableaux, et ce qui peut manquer en les écrivant.

pack-not-for-publication = Ne pas publier
pack-total = Total
pack-percent = { $n } %
pack-path = « { $path } » ne peut être le chemin d’un fichier du dossier
    .hint = C’est une faute du programme lui-même. Merci de la signaler.
pack-old-kept = le nouveau dossier n’a pu être mis en place ({ $why }) ; l’ancien a été déplacé dans { $folder }
    .hint = Remettez ce dossier à sa place à la main.
pack-file-is-folder = { $path } est un dossier
    .hint = Donnez le nom d’un fichier à écrire.
pack-file-exists = { $path } existe déjà
    .hint = Déplacez-le ou choisissez un autre nom.
pack-folder-foreign = { $folder } n’est pas vide et ne contient pas de dossier écrit par ce programme
    .hint = Choisissez un nouveau dossier avec --out. Seul un ancien dossier de ce programme est remplacé.
pack-folder-is-file = { $folder } n’est pas un dossier
    .hint = Choisissez un autre nom avec --out.
pack-folder-additions = { $folder } contient un fichier qui n’en fait pas partie : { $file }
    .hint = Déplacez ce fichier, ou choisissez un nouveau dossier avec --out. L’ancien serait remplacé en entier.
pack-not-written = { $path } ne peut être écrit : { $why }
    .hint = Vérifiez que le dossier existe, que vous pouvez y écrire et que le disque a de la place. Rien n’a été laissé.
pack-layer = { $name } ne peut être fait : { $why }
    .hint = Rien n’a été écrit. Si le quadrillage de l’étude est peu courant, essayez l’un de ceux que le programme nomme.

## Couches
pack-layer-cells = Carrés avec découvertes
pack-layer-cells-caution = Chaque carré est le lieu tel qu’il a été convenu. Rien n’y dit où, dans le carré, se trouvait une pièce. Ses angles sont ceux du quadrillage.
pack-layer-concentrations = Où les découvertes sont denses
pack-layer-concentrations-caution = Les contours suivent les bords des carrés. Ce ne sont pas des limites de sites, et le terrain au-dehors n’est pas vide.
pack-layer-parishes = Découvertes par commune
pack-layer-parishes-caution = Les pièces d’un carré qui franchit une limite sont partagées entre les communes selon la surface.
pack-layer-finds = Découvertes
pack-layer-fieldwork = Prospection
pack-layer-fieldwork-caution = Les parcelles qui n’ont rien livré y figurent aussi : elles ont été parcourues.
pack-density-units = pièces par hectare
pack-density-bandwidth-meaning = écart type du noyau gaussien, en mètres
pack-density-band = Pièces par hectare
pack-density-caution = Calculée à partir des carrés, jamais des lieux exacts. Une valeur forte n’est pas un site, une valeur faible peut être un terrain que personne n’a parcouru.

## Colonnes
pack-column-reference = Carré
pack-column-side-m = Côté (m)
pack-column-pieces = Pièces
pack-column-out-of-place = Hors de leur place
pack-column-classes = Classes
pack-column-periods = Périodes
pack-column-letter = Lettre
pack-column-hectares = Hectares
pack-column-per-hectare = Pièces par hectare
pack-column-greatest-density = Densité maximale (pièces par hectare)
pack-column-firm = Solidité (part des rééchantillonnages)
pack-column-p-global = p, tous les carrés à la fois
pack-column-p-pointwise = p, meilleur carré pris seul
pack-layer-contours = Courbes de densité des découvertes
pack-layer-contours-caution = Les courbes sont tracées d’après des carrés et s’arrêtent au bord du terrain. Ce ne sont pas des limites de sites, et une faible densité peut venir d’un terrain que personne n’a parcouru.
pack-column-may-hold = Peut contenir
pack-column-parish = Commune
pack-column-square-km = Km carrés
pack-column-handling = Diffusion
pack-column-number = Numéro
pack-column-easting-m = Est de l’angle sud-ouest (m)
pack-column-northing-m = Nord de l’angle sud-ouest (m)
pack-column-held-m = Précision détenue (m)
pack-column-uncertainty-m = Incertitude (m)
pack-column-written-system = Système noté
pack-column-operation = Opération
pack-column-parish-of-cell = Commune du carré
pack-column-class = Classe
pack-column-class-as-written = Classe telle qu’écrite
pack-column-period = Période
pack-column-period-as-written = Période telle qu’écrite
pack-column-count-rough = Nombre approché
pack-column-marks = Marques de taille
pack-column-strength = Force des stigmates
pack-column-setting = Milieu
pack-column-standing = Position
pack-column-material = Matière
pack-column-length-mm = Longueur (mm)
pack-column-weight-g = Masse (g)
pack-column-date = Date de découverte
pack-column-finder = Inventeur
pack-column-looked-at-by = Examiné par
pack-column-kept-at = Conservé à
pack-column-landowner = Propriétaire
pack-column-permission = Accord du propriétaire
pack-column-note = Note
pack-column-ground = Terrain
pack-column-walked-by = Parcouru par
pack-column-from = Du
pack-column-to = Au
pack-column-visits = Passages
pack-column-people-hours = Heures-personnes
pack-column-line-spacing-m = Écart des lignes (m)
pack-column-cover = Couverture
pack-column-visibility = Visibilité
pack-column-kept = Ramassage
pack-kept-all = tout
pack-kept-tools = outils seuls
pack-kept-selected = un choix
pack-kept-unknown = non noté
pack-find-count-rough = approché
pack-workbook-notes = Notes
pack-workbook-about = Chaque feuille est un tableau du dossier. Les chiffres sont des nombres, que l’on peut additionner ; les intitulés sont sur la première ligne.

## Précision et ce qui est retenu
pack-precision-squares = carrés de { $side }
pack-precision-parish = la commune seule
pack-stricter-near = à moins de { $distance } d’un terrain protégé
pack-withheld-finer = Le lieu d’une découverte, plus finement que : { $precision }.
pack-withheld-finer-parish = Le lieu d’une découverte dans sa commune.
pack-withheld-class = La classe de chaque découverte.
pack-withheld-period = La période de chaque découverte.
pack-withheld-exact-counts = Le nombre de pièces d’un carré, ou d’une classe ou d’une période dans un carré : des tranches en sont données.
pack-withheld-count = Le nombre de pièces.
pack-withheld-strength = La force des stigmates de taille humaine.
pack-withheld-parish = La commune.
pack-withheld-stated-parish = La commune donnée par l’inventeur.
pack-withheld-number = Les numéros d’inventaire.
pack-withheld-setting = Le milieu de chaque découverte : plage, labour, jardin, etc.
pack-withheld-standing = Si chaque pièce était en place.
pack-withheld-marks = Les stigmates relevés sur chaque pièce.
pack-withheld-material = La matière de chaque pièce.
pack-withheld-measurements = Longueurs et masses.
pack-withheld-date = Les dates de découverte.
pack-withheld-finder = Les noms des inventeurs et des propriétaires.
pack-withheld-looked-at-by = Qui a examiné chaque pièce.
pack-withheld-kept-at = Où les pièces sont conservées.
pack-withheld-landowner = À qui sont les terrains.
pack-withheld-permission = Les accords des propriétaires.
pack-withheld-note = Les notes.
pack-withheld-written = Les lieux tels qu’ils ont été notés.
pack-withheld-fieldwork = Qui a parcouru quel terrain, et quand.

## LISEZ-MOI
pack-readme-handling = Ce dossier contient des lieux confiés sous réserve. Gardez-le parmi les personnes pour qui il a été fait ; ne le placez ni sur un disque partagé ni sur un site web.
pack-readme-pack = Ce dossier contient ce qui peut être montré d’un inventaire de pierres taillées : cartes, tableaux et couches, avec un rapport qui les explique. Commencez par le rapport, s’il y en a un.
pack-readme-submission = Ce dossier contient un dépôt de découvertes de pierres taillées : une ligne par découverte, à la précision convenue, avec la prospection d’où elles viennent.
pack-readme-made = Il a été fait par { $program } pour { $recipient }. Précision des lieux : { $precision }, dans le quadrillage { $grid }. Le même inventaire et les mêmes réglages donnent les mêmes fichiers, octet pour octet.
pack-readme-files = Ce qu’il contient :
pack-readme-withheld = Ce qui a été retenu, par nature :
pack-readme-reason = Pourquoi : { $reason }
pack-readme-cautions = À garder à l’esprit :
pack-readme-credits = Fonds de carte, avec la mention et la licence données par leurs auteurs :
pack-file-report-html = le rapport, pour l’écran ; un seul fichier qui se suffit
pack-file-report-pdf = le rapport, pour le papier
pack-file-submission-html = le dépôt, pour l’écran
pack-file-submission-pdf = le dépôt, à imprimer
pack-file-cells-geojson = carrés avec découvertes, pour tout logiciel de cartographie (WGS84)
pack-file-cells-kml = les mêmes carrés, pour un globe virtuel
pack-file-concentrations = contours des zones denses (WGS84)
pack-file-contours = courbes de la surface de densité, à des niveaux ronds (WGS84)
pack-file-density = la surface de densité, en pièces par hectare, dans le quadrillage de l’étude
pack-file-geopackage = toutes les couches en un fichier, dans le quadrillage de l’étude
pack-file-workbook = tous les tableaux en un classeur
pack-file-finds-csv = une ligne par découverte
pack-file-finds-gpkg = les mêmes découvertes en carrés, pour un logiciel de cartographie, avec la prospection
pack-file-fieldwork-csv = qui a parcouru quel terrain, quand et comment
pack-file-maps = les cartes, chacune dans les formes que demande l’étude
pack-file-tables = chaque tableau en CSV et Markdown
pack-file-manifest = ce qui a été convenu, ce qui a été retenu, et chaque fichier avec son empreinte
pack-file-readme = cette liste, en texte simple

## Rapport
pack-report-title = Rapport de répartition
pack-report-contents = Sommaire
pack-report-skip = Aller au rapport
pack-report-figure = Figure
pack-figure-caption = { $title }. Précision des lieux : { $precision }, ou moins fine.
pack-report-table = Tableau
pack-report-figure-in-text = figure
pack-report-table-in-text = tableau
pack-report-section = section
pack-report-back = Retour à l’endroit qui cite cette source, numéro
pack-report-cited = citée p.
pack-report-gazetteer = Commune par commune
pack-report-words = Les mots employés ici
pack-report-page = Page
pack-report-of = sur
pack-report-compiled-by = Établi par { $name }
pack-report-for = Pour { $recipient }
pack-report-summary = En bref
pack-report-register = L’inventaire
pack-report-places = Comment les lieux sont montrés
pack-report-maps = Cartes
pack-report-tables = Tableaux
pack-report-concentrations = Concentrations
pack-report-richer-squares = Carrés plus riches
pack-report-shore = Le long du rivage
pack-report-method = Méthode
pack-report-cautions = Avant d’aller, de creuser ou de partager
pack-report-citing = Comment citer
pack-report-files = Contenu du dossier
pack-date-written = { $day ->
    [1] 1er
   *[other] { $day }
    } { $month } { $year }
pack-month-1 = janvier
pack-month-2 = février
pack-month-3 = mars
pack-month-4 = avril
pack-month-5 = mai
pack-month-6 = juin
pack-month-7 = juillet
pack-month-8 = août
pack-month-9 = septembre
pack-month-10 = octobre
pack-month-11 = novembre
pack-month-12 = décembre
pack-number-pieces = { $n ->
    [one] pièce
   *[other] pièces
    }
pack-number-records = { $n ->
    [one] notice
   *[other] notices
    }
pack-number-cells = { $n ->
    [one] carré avec découvertes
   *[other] carrés avec découvertes
    }
pack-number-classes = { $n ->
    [one] classe
   *[other] classes
    }
pack-number-periods = { $n ->
    [one] période nommée
   *[other] périodes nommées
    }
pack-number-parishes = { $n ->
    [one] commune avec découvertes
   *[other] communes avec découvertes
    }
pack-summary-nothing = Aucune découverte ne peut être montrée selon cet accord. L’inventaire et ses défauts sont présentés plus bas.
pack-summary-lead = { $pieces ->
    [one] Une pierre taillée, en une notice, peut être montrée.
   *[other] { $pieces_text } pierres taillées, en { $records ->
        [one] une notice
       *[other] { $records_text } notices
    }, peuvent être montrées.
    }
pack-summary-part = { $name } ({ $pieces } ; { $share })
pack-summary-classes = Les classes les plus fréquentes : { $list }.
pack-summary-periods = Parmi les pièces à leur place et de période nommée, les plus fréquentes : { $list }.
pack-summary-undated = Sans date : { $share } des pièces à leur place ; datées seulement de la Préhistoire : { $prehistoric }. La plupart des pierres taillées ne se datent pas par elles-mêmes ; elles ont donc leurs propres colonnes et ne sont jamais réparties entre les périodes.
pack-summary-by-parish = { $n ->
    [one] Une pièce n’est connue que par sa commune. Elle compte
   *[other] { $n_text } pièces ne sont connues que par leur commune. Elles comptent
    } dans les tableaux et les teintes par commune, mais dans aucun carré ni aucune densité.
pack-summary-out-of-place = { $n ->
    [one] Une pièce n’était pas à sa place
   *[other] { $n_text } pièces n’étaient pas à leur place
    } (déplacées par la mer ou la pente, ou apportées plus tard par des gens) ; rien ne le dit { $in ->
    [one] de l’autre
   *[other] des { $in_text } autres
    }. Les pièces hors de leur place comptent dans les totaux et dans les carrés ; les tableaux par période leur donnent une colonne à part, et la densité les laisse de côté.
pack-summary-more = Avant d’y aller, de fouiller ou de partager ce que vous lisez ici, voyez la { $section }.
pack-summary-precision = Les lieux sont montrés par carrés de { $side } ou plus. Aucun point d’une carte n’est un lieu de découverte.
pack-summary-precision-parish = Les lieux sont montrés par commune. Aucun point d’une carte n’est un lieu de découverte.
pack-register-rows = { $read ->
    [0] Aucune ligne n’a été lue
    [one] Une ligne a été lue
   *[other] { $read_text } lignes ont été lues
    } ; { $used_text } utilisées et { $aside_text } écartées. Une ligne inutilisable est gardée avec sa raison, jamais écartée en silence.
pack-register-aside-intro = Le { $table } en donne les raisons.
pack-register-set-aside = Lignes écartées
pack-register-reason = Raison
pack-register-rows-heading = Lignes
pack-register-faults = Un inventaire tenu par plusieurs mains pendant des années a des défauts qu’aucun programme ne trouve : une référence recopiée d’un autre champ, une période devinée, un silex naturel pris pour un silex taillé.
pack-register-bias = Il montre aussi où l’on a cherché. Les terrains proches des maisons et des chemins, et les champs labourés quand quelqu’un était libre, sont vus plus souvent. Un carré vide peut être un terrain que personne n’a parcouru.
pack-places-cells = Chaque lieu a été ramené au carré du quadrillage convenu qui le contient, vers le sud-ouest, comme on le fait des références de carte. Une découverte notée moins finement est montrée dans un carré plus grand. Rien n’a été déplacé au hasard { $sources }.
pack-places-parish = Les découvertes sont montrées par commune seulement { $sources }.
pack-places-everyone = tous
pack-fact-for = Pour
pack-fact-grid = Grille
pack-fact-precision = Précision
pack-fact-smallest-area = Plus petit terrain laissé à une découverte
pack-fact-smallest-count = Nombre minimal de pièces pour montrer un lieu
pack-fact-stricter = Montré moins finement : { $what }
pack-fact-shown = Montré d’une découverte
pack-fact-given = Fourni
pack-fact-reason = Raison
pack-fact-review = À revoir
pack-fact-kernel = Noyau
pack-fact-bandwidth = Largeur de noyau (écart type)
pack-fact-bandwidth-choice = Comment elle a été choisie
pack-fact-pixel = Côté d’un pixel
pack-fact-density-pieces = Pièces dans la surface
pack-shown-class = classe
pack-shown-period = période
pack-shown-count = nombre
pack-shown-strength = force des stigmates
pack-shown-parish = commune du carré
pack-shown-stated-parish = commune donnée
pack-shown-number = numéro
pack-shown-setting = milieu
pack-shown-standing = position
pack-shown-marks = stigmates
pack-shown-material = matière
pack-shown-measurements = longueur et masse
pack-shown-date = date
pack-shown-finder = inventeur
pack-shown-looked-at-by = qui l’a examinée
pack-shown-kept-at = lieu de conservation
pack-shown-landowner = propriétaire ou exploitation
pack-shown-permission = accord du propriétaire
pack-shown-note = note, lieux ôtés
pack-shown-written = lieu noté, à la précision convenue
pack-shown-fieldwork = prospection
pack-given-maps = cartes
pack-given-tables = tableaux
pack-given-report = rapport
pack-given-layers = couches
pack-given-density = densité
pack-given-concentrations = concentrations
pack-given-finds = découvertes, une par ligne
pack-places-withheld-heading = Ce qui a été retenu
pack-places-withheld = Ces choses sont dans l’inventaire, ou peuvent y être, et ne sont pas dites ici :
pack-places-suppressed = { $n ->
    [one] Une pièce de plus se trouve
   *[other] { $n_text } pièces de plus se trouvent
    } dans des lieux qui en ont trop peu pour être montrés ({ $places_text } en tout). Elles ne sont comptées nulle part ailleurs.
pack-places-suppressed-alone = { $n ->
    [one] Les découvertes d’un lieu de plus
   *[other] Les découvertes de { $n_text } lieux de plus
    } ne sont pas montrées, ni comptées nulle part : chacun a trop peu de pièces.
pack-places-why = Un lieu précis, une fois publié, ne peut être repris. Il attire les fouilles et les ramassages illégaux, de nuit, et les passages sans permission. Voilà pourquoi les carrés ont cette taille.
pack-maps-reading = Chaque carte porte sa précision, son échelle et ses sources. Un carré teinté dit combien de pièces y ont été notées, et rien de l’endroit.
pack-tables-reading = Les chiffres sont des pièces, non des notices. Les totaux sont ceux des découvertes qui peuvent être montrées.
pack-tables-from-bands = Le nombre de pièces d’un carré est donné par tranche. Les chiffres des communes, des nappes, des tronçons de rivage et de la densité sont donc des estimations ; les totaux sont exacts, ou donnés par un intervalle là où un total exact dirait le nombre d’un carré ({ $section }).
pack-concentrations-intro = Zones de plus forte densité, qui en tiennent ensemble { $share }. Chacune suit les bords des carrés. C’est une nappe de découvertes telles que notées, plus grande ou plus petite que tout lieu de travail ancien.
pack-concentrations-richer = Carrés de plus forte densité, qui en tiennent ensemble { $share }. Des carrés de cette taille disent seulement qu’il y a plus ici qu’ailleurs.
pack-concentrations-envelope = Zones où les découvertes sont plus denses que ne le donneraient les mêmes enregistrements répartis au hasard et uniformément sur { $over }. Pour l’ensemble des découvertes, p = { $p }. Chacune suit les bords des carrés. C’est une nappe de découvertes telles que notées, plus grande ou plus petite que tout lieu de travail ancien.
pack-concentration-density = Pièces par hectare : { $density }.
pack-concentration-firm = Elle se retrouve dans { $stays_text } des { $of_text } rééchantillonnages des découvertes.
pack-concentration-chance = Face à une répartition uniforme : p = { $p }.
pack-concentrations-none = Aucune zone ne se détache avec les réglages employés.
pack-concentration-heading = Concentration { $letter }
pack-concentration-heading-richer = Carrés plus riches { $letter }
pack-concentration-size = { $hectares } ha en { $cells ->
    [one] un carré
   *[other] { $cells_text } carrés
    } ; pièces : { $pieces }.
pack-concentration-size-alone = { $hectares } ha en { $cells ->
    [one] un carré
   *[other] { $cells_text } carrés
    }.
pack-concentration-may-hold = Une partie des pièces de carrés plus grands qui la recouvrent peut s’y trouver aussi ({ $pieces }).
pack-concentration-classes = Classes : { $list }.
pack-concentration-periods = Périodes : { $list }.
pack-concentrations-caution = Un contour n’est pas la limite d’un site. Là où beaucoup ont souvent marché, les découvertes sont denses sur la carte.
pack-shore-length = Le rivage mesure { $length } une fois simplifié à { $tolerance } près ; une ligne plus fine serait plus longue. Les découvertes jusqu’à { $within } du rivage sont comptées { $sources }.
pack-shore-beyond = { $n ->
    [one] Une pièce se trouve plus à l’intérieur et n’est pas comptée
   *[other] { $n_text } pièces se trouvent plus à l’intérieur et ne sont pas comptées
    } ici.
pack-shore-by-parish = { $n ->
    [one] Une pièce n’est connue que par sa commune et ne peut
   *[other] { $n_text } pièces ne sont connues que par leur commune et ne peuvent
    } être placées le long du rivage.
pack-shore-ranges = Un carré se trouve quelque part sur une étendue du rivage, jamais en un point. Ses pièces sont partagées également entre les sections de cette étendue.
pack-method-cells = Les lieux sont convertis dans le quadrillage convenu, avec l’opération et son exactitude pour chacun, puis ramenés à leur carré. Le côté est le plus grand de trois : le côté convenu, le carré dans lequel la découverte a été notée, et le double de son incertitude. Il ne dépend que de tailles, jamais de l’endroit { $sources }.
pack-method-bands = Le nombre de pièces d’un carré, et celui de chaque classe et de chaque période dans ce carré, est donné par tranche (1–2, 3–9, 10–49, 50 et plus). Cartes, densité, nappes, communes et tronçons de rivage sont tirés de ces tranches et non des vrais nombres : chaque carré vaut un nombre de sa tranche, et tous ensemble les totaux. Ce sont des estimations, bonnes pour comparer, et leurs chiffres ne s’ajoutent pas à d’autres comptes. Les totaux de tout le registre sont exacts, sauf là où un total exact dirait le nombre d’un carré : un intervalle y figure { $sources }.
pack-method-parishes = Quand un carré franchit des limites de communes, ses pièces sont partagées entre elles selon la surface.
pack-method-density = La densité est une estimation par noyau gaussien faite à partir des carrés : les pièces d’un carré y sont étendues également, puis lissées. La largeur est l’écart type du noyau, { $bandwidth }, et la surface est calculée sur des pixels de { $pixel } { $sources }.
pack-method-edge = Ce que le noyau porterait en mer est gardé à terre, en divisant par la part du noyau qui tombe à terre ; la surface contient autant de pièces qu’il y a de découvertes { $sources }.
pack-method-edge-uniform = Au bord du terrain, la surface est divisée, lieu par lieu, par la part d’un noyau qui tombe sur le terrain : un terrain égal reste égal, et la surface ne contient pas forcément autant de pièces qu’il y a de découvertes { $sources }.
pack-method-no-edge = Aucune correction n’a été faite au bord ; la densité y est un peu trop faible.
pack-method-left-out = Hors de la densité : { $place_text } pièces hors de leur place, { $parish_text } connues par leur commune seule.
pack-method-kernel = gaussien
pack-method-concentrations = Les concentrations sont faites des carrés de plus forte densité qui en tiennent ensemble { $share } { $sources }.
pack-method-envelope = Les concentrations sont faites des carrés où la densité dépasse ce que donnerait le hasard : les enregistrements, chacun avec ses pièces, ont été répartis uniformément sur le terrain { $n_text } fois et lissés de la même manière. Un carré en est quand son excès sur la moyenne de ces répartitions, compté en écarts-types, n’est atteint où que ce soit sur le terrain que dans { $level } d’entre elles au plus { $sources }.
pack-method-pointwise-envelope = Les concentrations sont faites des carrés où la densité dépasse ce que donnerait le hasard : les enregistrements, chacun avec ses pièces, ont été répartis uniformément sur le terrain { $n_text } fois et lissés de la même manière. Un carré en est quand sa densité n’est atteinte que dans { $level } d’entre elles au plus ; chaque carré est jugé seul, si bien que quelques-uns ressortent par le seul hasard { $sources }.
pack-method-peaks = Chaque carré s’écoule vers le sommet auquel il monte par la plus forte pente ; { $prominence } fait partie de son voisin. Les carrés qui se touchent par un côté et s’écoulent vers un même sommet forment une zone ; une zone de moins de { $smallest_text } pièces n’est pas donnée { $sources }.
pack-method-prominence-share = un sommet qui s’élève de moins de { $share } de sa hauteur au-dessus du col vers un plus haut
pack-method-prominence-pieces = un sommet qui s’élève de moins de { $pieces } pièces par hectare au-dessus du col vers un plus haut
pack-method-firm = La solidité de chacune a été éprouvée en tirant au sort, avec remise, les enregistrements, { $n_text } fois : elle se retrouve dans un tirage qui montre une concentration ayant avec elle au moins la moitié de leurs carrés en commun { $sources }.
pack-method-shore = Le trait de côte a été simplifié avec une tolérance de { $tolerance } et coupé en sections de { $stretch }. La longueur d’une côte dépend de la tolérance ; les chiffres par kilomètre ne se comparent qu’à l’intérieur de ce rapport { $sources }.
pack-method-periods = Les périodes sont celles du pays nommé dans l’étude. Une pièce datée d’une période large y est comptée, et non dans les plus étroites.
pack-method-strength = La force des stigmates suit l’usage courant : forte pour plusieurs nervures alignées avec un talon ou pour une retouche régulière, moyenne pour un bulbe avec un talon ou des nervures seules, faible pour un stigmate isolé, que font aussi le gel, la charrue et la plage.
pack-method-sources = Sources de la méthode
pack-source-chapman = Chapman, A. D. 2020. Current Best Practices for Generalizing Sensitive Species Occurrence Data. GBIF. doi:10.15468/doc-5jp4-5g10.
pack-source-chapman-wieczorek = Chapman, A. D. et Wieczorek, J. R. 2020. Georeferencing Best Practices. GBIF. doi:10.15468/doc-gg7h-s853.
pack-source-diggle = Diggle, P. 1985. A kernel method for smoothing point process data. Applied Statistics 34, 138–147.
pack-source-silverman = Silverman, B. W. 1986. Density Estimation for Statistics and Data Analysis. Chapman and Hall.
pack-source-scott = Scott, D. W. 1992. Multivariate Density Estimation. Wiley.
pack-source-beardah = Beardah, C. C. et Baxter, M. J. 1996. The archaeological use of kernel density estimates. Internet Archaeology 1.
pack-source-hyndman = Hyndman, R. J. 1996. Computing and graphing highest density regions. The American Statistician 50, 120–126.
pack-source-hundepool = Hundepool, A. et autres 2012. Statistical Disclosure Control. Wiley.
pack-source-wong = Wong, R. C.-W., Fu, A. W.-C., Wang, K. et Pei, J. 2007. Minimality attack in privacy preserving data publishing. VLDB 2007, 543–554.
pack-source-besag = Besag, J. and Diggle, P. J. 1977. Simple Monte Carlo tests for spatial pattern. Applied Statistics 26, 327–333.
pack-source-chazal = Chazal, F., Guibas, L. J., Oudot, S. Y. et Skraba, P. 2013. Persistence-based clustering in Riemannian manifolds. Journal of the ACM 60(6), 41.
pack-source-edelsbrunner = Edelsbrunner, H., Letscher, D. et Zomorodian, A. 2002. Topological persistence and simplification. Discrete & Computational Geometry 28, 511–533.
pack-source-hennig = Hennig, C. 2007. Cluster-wise assessment of cluster stability. Computational Statistics & Data Analysis 52, 258–271.
pack-source-myllymaki = Myllymäki, M., Mrkvička, T., Grabarnik, P., Seijo, H. and Hahn, U. 2017. Global envelope tests for spatial processes. Journal of the Royal Statistical Society B 79, 381–404.
pack-source-mandelbrot = Mandelbrot, B. 1967. How long is the coast of Britain? Science 156, 636–638.
pack-caution-nighthawking = Les fouilles et les ramassages illégaux, souvent de nuit, détruisent ce que le sol pourrait dire. Les lieux précis sont retenus pour que ce rapport ne conduise personne à un endroit. N’essayez pas de les retrouver, et ne partagez pas ce que vous en savez.
pack-caution-landowner = Tout terrain a un propriétaire, et la plupart des découvertes aussi. Demandez l’accord du propriétaire avant de chercher, et convenez par écrit de ce que devient ce qui est trouvé.
pack-caution-report = Déclarez ce que vous trouvez au service du patrimoine ou de l’archéologie, avec le lieu tel que vous le connaissez, et suivez la loi du lieu.
pack-caution-protected = Les sites protégés ont leurs propres règles. Sur beaucoup, chercher et ramasser sont des délits. Renseignez-vous avant d’y aller.
pack-caution-entry = Une carte n’est pas un droit de passage. Entrer sur un terrain demande une permission, à pied aussi.
pack-caution-tides = Sur le rivage, consultez l’heure de la marée et repartez avant qu’elle ne tourne. Tenez-vous loin du pied et du bord des falaises : elles s’éboulent sans prévenir, surtout après la pluie et le gel.
pack-caution-photographs = Avant de publier une photographie, un trajet ou une date, pensez à ce qu’ils révèlent : horizon, bâtiments et données cachées d’une image peuvent mener à l’endroit.
pack-caution-ask = Rien ici n’est un conseil juridique. La pratique autorisée et l’avis du service du patrimoine passent d’abord.
pack-law-england-wales = En Angleterre et au pays de Galles, certaines découvertes doivent être déclarées dans un délai fixé, d’autres sont signalées librement, et les terrains classés sont protégés. Le service local dira ce qui s’applique.
pack-law-scotland = En Écosse, les découvertes sans maître, de toute matière, appartiennent à la Couronne et doivent être déclarées. L’organisme qui reçoit ces déclarations dira comment.
pack-law-ireland = En Irlande, les découvertes doivent être déclarées en quelques jours et laissées sur place sauf danger ; chercher avec un détecteur demande un accord, et creuser une licence. Le nord et le sud ont chacun leurs lois.
pack-law-france = En France, les découvertes fortuites, préhistoriques comprises, sont déclarées sans délai au maire, qui avertit le service régional de l’archéologie ; fouiller, et chercher avec un détecteur de métaux, demandent une autorisation, et une prospection pédestre suivie se convient avec ce service.
pack-law-other = Les lois sur les découvertes changent d’un pays à l’autre. Demandez au service du patrimoine du lieu avant de chercher.
pack-law-general = L’estran et le fond de la mer ont souvent leurs propriétaires et leurs règles.
pack-citing-made = Rapport de répartition fait avec strew { $version }. Précision des lieux : { $precision }.
pack-citing-credits = Mention des fonds de carte, avec les licences données par leurs auteurs :

pack-places-agreed = Voici ce qui a été convenu ; la { $section } dit comment cela a été fait.
pack-figure-intro = La { $figure } est une planche à part : { $title }.
pack-figure-intro-cells = La { $figure } teinte chaque carré selon le nombre de pièces qui y ont été notées, en quatre tranches.
pack-figure-intro-symbols = La { $figure } dit ce qui a été trouvé dans chaque carré : la forme d’un signe est la classe, sa couleur la période, sa taille le nombre.
pack-figure-intro-parishes = La { $figure } compte par commune. Les découvertes connues par leur seule commune y ont leur part, et dans aucun carré.
pack-figure-intro-density = La { $figure } lisse les carrés en une surface de pièces par hectare, avec une largeur de noyau de { $bandwidth }. Elle montre d’un coup d’œil l’allure des découvertes et n’invente aucun détail ; la { $section } dit comment elle a été faite.
pack-figure-intro-concentrations = La { $figure } en trace les contours, chacun avec sa lettre.
pack-figure-intro-ladder = La { $figure } montre par carrés de quelle taille, et où par la seule commune, les découvertes peuvent être montrées. Cela a été fixé par les couches publiques et par l’accord, avant toute lecture de l’inventaire.
pack-figure-intro-shore = La { $figure } suit le rivage depuis son kilomètre 0, une barre par section.
pack-table-intro = Le { $table } donne les chiffres : { $title }.
pack-table-intro-class-by-period = Le { $table } croise les classes et les périodes.
pack-table-intro-parish-by-period = Le { $table } croise les communes et les périodes.
pack-table-intro-parish-by-class = Le { $table } dit quelles classes viennent de quelle commune.
pack-table-intro-class-by-strength = Le { $table } dit avec quelle force les stigmates de chaque classe parlent d’un travail humain.
pack-table-intro-class-by-setting = Le { $table } dit sur quel genre de terrain chaque classe a été ramassée.
pack-table-intro-concentrations = Le { $table } les met côte à côte.
pack-table-intro-concentration-by-class = Le { $table } dit quelles classes se trouvent dans chacune.
pack-table-intro-concentration-by-period = Le { $table } dit quelles périodes se trouvent dans chacune.
pack-table-intro-ladder = Le { $table } compte les carrés montrés moins finement que convenu.
pack-table-intro-shore = Le { $table } donne les chiffres de chaque section.
pack-concentration-parishes = { $n ->
    [one] Commune : { $list }.
   *[other] Communes : { $list }.
    }
pack-places-estimated = Les nombres de pièces par partie du terrain (commune, concentration, tronçon de rivage) sont des estimations, tirées des tranches des carrés.
pack-gazetteer-intro = { $n ->
    [one] La seule commune dont des découvertes peuvent être montrées.
   *[other] Les { $n_text } communes dont des découvertes peuvent être montrées, par ordre de nom.
    } Un carré que plusieurs communes se partagent est réparti entre elles selon la surface : un petit chiffre peut n’être qu’une telle part.
pack-gazetteer-pieces = { $n ->
    [one] Une pièce.
   *[other] { $pieces } pièces.
    }
pack-gazetteer-part = { $name } ({ $pieces })
pack-gazetteer-others = { $n ->
    [one] une autre ({ $pieces })
   *[other] { $n_text } autres ({ $pieces })
    }
pack-table-others = { $n ->
    [one] autre
   *[other] autres
    }
pack-table-others-note = { $n ->
    [one] Sous « autre » : { $list }. Les fichiers de tableaux lui donnent sa colonne.
   *[other] Sous « autres » : { $list }. Les fichiers de tableaux donnent à chacune sa colonne.
    }
pack-gazetteer-classes = Par classe : { $list }.
pack-gazetteer-periods = Par période : { $list }.
pack-gazetteer-out-of-place = { $n ->
    [one] Une pièce est déplacée.
   *[other] { $pieces } pièces sont déplacées.
    }
pack-gazetteer-concentrations = { $n ->
    [one] La concentration { $list } s’y trouve, en tout ou en partie ({ $section }).
   *[other] Les concentrations { $list } s’y trouvent, en tout ou en partie ({ $section }).
    }
pack-gazetteer-richer-squares = { $n ->
    [one] Les carrés plus riches { $list } s’y trouvent, en tout ou en partie ({ $section }).
   *[other] Les carrés plus riches { $list } s’y trouvent, en tout ou en partie ({ $section }).
    }
pack-gazetteer-field = { $name } ({ $hectares } ha)
pack-gazetteer-fieldwork = Terrains prospectés : { $list }.
pack-gazetteer-none = { $n ->
    [one] D’une commune aucune découverte n’est montrée : { $list }. Cela ne veut pas dire qu’il n’y en a pas.
   *[other] De { $n_text } communes aucune découverte n’est montrée : { $list }. Cela ne veut pas dire qu’il n’y en a pas.
    }
pack-method-intro = Cette section dit comment les chiffres ont été obtenus. Le { $table }, à la fin, donne chaque réglage : qui a le même inventaire et ces réglages obtient le même rapport.
pack-method-bandwidth = La largeur du noyau a été choisie ainsi : { $how } { $sources }.
pack-method-adaptive = Chaque découverte a sa propre largeur, grande là où elles sont clairsemées { $sources }.
pack-settings-title = Réglages
pack-settings-name = Réglage
pack-settings-value = Valeur
pack-settings-part = Où il entre
pack-part-places = lieux
pack-part-density = densité
pack-part-concentrations = concentrations
pack-part-shore = rivage
pack-part-program = l’ensemble
pack-fact-operation = Conversion depuis latitude et longitude
pack-fact-accuracy = Son exactitude
pack-fact-tolerance = Lissage du trait de côte
pack-fact-stretch = Longueur d’une section
pack-fact-within = Plus grande distance au rivage
pack-fact-program = Programme
pack-fact-libraries = Bibliothèques
pack-fact-bandwidth-axes = Largeur de noyau, par direction
pack-fact-bandwidth-axes-value = { $east } d’est en ouest, { $north } du nord au sud
pack-fact-pilot = Largeur du noyau pilote
pack-fact-edge = Au bord du terrain
pack-edge-diggle = noyau de chaque découverte divisé par sa part sur le terrain
pack-edge-uniform = surface divisée par la part d’un noyau sur le terrain
pack-edge-none = rien
pack-fact-per = Densité rapportée
pack-per-land = à l’hectare de terre
pack-per-walked = à l’hectare prospecté
pack-per-covered = à l’hectare regardé
pack-fact-left-out-of-place = Hors de la surface : pièces hors de leur place
pack-fact-left-by-parish = Hors de la surface : pièces connues par leur seule commune
pack-fact-left-by-setting = Hors de la surface : pièces d’autres milieux
pack-fact-left-off-land = Hors de la surface : pièces en carrés hors de la terre
pack-fact-left-unwalked = Hors de la surface : pièces sur un terrain non connu comme prospecté
pack-fact-share = Part de la masse qu’elles tiennent
pack-fact-bound = Ce qui les borne
pack-bound-global = une répartition uniforme, tous les carrés à la fois
pack-bound-pointwise = une répartition uniforme, chaque carré pour lui-même
pack-fact-simulations = Répartitions simulées
pack-fact-level = Seuil
pack-fact-prominence = Relief minimal d’un sommet (part de sa hauteur)
pack-fact-prominence-density = Relief minimal d’un sommet, en pièces par hectare
pack-fact-smallest = Nombre minimal de pièces dans une zone donnée
pack-fact-resamples = Rééchantillonnages
pack-fact-seed = Graine des nombres au hasard
pack-word-piece = Pièce
pack-word-piece-meaning = un objet. Une notice peut en compter plusieurs semblables.
pack-word-record = Notice
pack-word-record-meaning = une ligne de l’inventaire : ce que quelqu’un a noté d’une découverte.
pack-word-square = Carré
pack-word-square-meaning = le carré du quadrillage convenu qui contient une découverte. L’endroit exact dans le carré n’est dit sur aucune carte ni dans aucun fichier.
pack-word-band = Tranche
pack-word-band-meaning = manière de dire le nombre de pièces d’un carré : 1–2, 3–9, 10–49, 50 et plus.
pack-word-in-place = À sa place, déplacée
pack-word-in-place-meaning = si une pièce était là où les gens de son temps l’ont laissée, autant que l’inventeur ait pu en juger. Le silex d’une plage y a le plus souvent été apporté.
pack-word-strength = Force des stigmates
pack-word-strength-meaning = avec quelle force les stigmates d’une pierre (talon, bulbe, nervures, retouche) parlent d’un travail humain, d’après les seuls stigmates notés.
pack-word-bandwidth = Largeur de noyau
pack-word-bandwidth-meaning = jusqu’où la densité lisse : l’écart type du noyau. Plus elle est grande, moins on voit une découverte seule.
pack-word-concentration = Concentration
pack-word-concentration-meaning = une zone où les découvertes sont denses. Est-ce un épandage, un site ou le chemin d’un prospecteur attentif ? C’est aux gens d’en juger.
pack-sources-intro = Les numéros du texte mènent ici ; chaque source dit où elle est citée.
pack-source-abramson = Abramson, I. S. 1982. On bandwidth variation in kernel estimates: a square root law. Annals of Statistics 10, 1217–1223.
pack-source-bowman = Bowman, A. W. 1984. An alternative method of cross-validation for the smoothing of density estimates. Biometrika 71, 353–360.
pack-source-jones = Jones, M. C. 1993. Simple boundary correction for kernel density estimation. Statistics and Computing 3, 135–146.
pack-source-loader = Loader, C. 1999. Local Regression and Likelihood. Springer.
pack-source-wand = Wand, M. P. et Jones, M. C. 1994. Multivariate plug-in bandwidth selection. Computational Statistics 9, 97–116.

## Dépôt
pack-submission-title = Dépôt de découvertes
pack-submission-places = Ce qui est déposé
pack-submission-fieldwork = Prospection
pack-submission-finds = Découvertes
pack-submission-summary = { $records ->
    [0] Aucune découverte
    [one] Une découverte
   *[other] { $records_text } découvertes
    } ({ $pieces ->
    [0] aucune pièce
    [one] une pièce
   *[other] { $pieces_text } pièces
    }) sur { $read_text } lignes de l’inventaire ; { $aside_text } lignes écartées.
pack-submission-precision = Précision des lieux : { $precision }, dans le quadrillage { $grid }. La référence nomme le carré ; l’est et le nord sont ceux de son angle sud-ouest. La précision détenue est le carré dans lequel la découverte a été notée.
pack-submission-operations = Les lieux ont été convertis par :
pack-submission-no-fieldwork = Aucune prospection n’est notée dans l’étude. L’absence de découvertes ailleurs ne dit rien.
pack-submission-too-many = Les { $n_text } premières découvertes sont imprimées ; finds.csv et finds.gpkg les contiennent toutes.
pack-sheet-heading-number = Numéro
pack-sheet-heading-place = Lieu
pack-sheet-heading-what = Objet
pack-sheet-heading-marks = Marques
pack-sheet-heading-measures = Matière et taille
pack-sheet-heading-people = Vue, conservée, à qui
pack-sheet-heading-note = Papiers et note
pack-sheet-corner = { $east } E, { $north } N
pack-sheet-side = carré de { $value }
pack-sheet-held = détenue à { $value }
pack-sheet-uncertainty = ± { $value }
pack-sheet-as-written = { $term } (écrit : { $written })
pack-sheet-strength = force : { $value }
pack-sheet-length = { $value } mm
pack-sheet-weight = { $value } g
pack-sheet-looked-at-by = examinée par { $value }
pack-sheet-kept-at = conservée à { $value }
pack-sheet-landowner = terrain : { $value }
pack-sheet-permission = accord : { $value }
pack-sheet-operation = convertie par { $number }

### Hand-outs: blank pages to fill in by hand. A "column" is a heading that registers are read by: the tests read each of them.

pack-blank-title = Fiche de découverte : pierre taillée
pack-blank-lead = Une fiche par pièce, ou par lot de pièces semblables du même point. Si les fiches sont saisies en tableau, les titres en gras en sont les colonnes, et ce qui est coché ou écrit se place dessous.
pack-blank-office = Service destinataire
pack-blank-column-number = Numéro
pack-blank-column-date = Date de découverte
pack-blank-column-finder = Inventeur
pack-blank-column-looked-at-by = Vu par
pack-blank-column-parish = Commune
pack-blank-column-landowner = Propriétaire
pack-blank-column-permission = Autorisation
pack-blank-column-setting = Nature du terrain
pack-blank-column-place = Coordonnées
pack-blank-column-accuracy = Précision (m)
pack-blank-column-standing = Position stratigraphique
pack-blank-column-marks = Stigmates
pack-blank-column-class = Type
pack-blank-column-period = Période
pack-blank-column-count = Nombre
pack-blank-column-length = Longueur (mm)
pack-blank-column-weight = Poids (g)
pack-blank-column-material = Matière
pack-blank-column-kept-at = Lieu de conservation
pack-blank-column-note = Remarques
pack-blank-box-system = dans quel système
pack-blank-box-how-got = relevées sur
pack-blank-box-how-found = trouvée comment, à quelle profondeur
pack-blank-box-sketch = croquis
pack-blank-box-photographs = photographies
pack-blank-box-left = ce qui est resté en place
pack-blank-hint-permission = demandée à qui, et quand
pack-blank-hint-place = telles que lues, avec lettres ou unités
pack-blank-hint-accuracy = ± combien
pack-blank-hint-marks = Cochez ce qui se voit, laissez le douteux.
pack-blank-hint-class = cochez, ou écrivez
pack-blank-hint-period = estimée ; « non daté » est une bonne réponse
pack-blank-hint-sketch = deux faces et profil, talon en haut
pack-blank-view-bulbar = face inférieure
pack-blank-view-side = profil
pack-blank-view-back = face supérieure
pack-blank-system-degrees = degrés (WGS84)
pack-blank-system-other = autre
pack-blank-got-phone = téléphone
pack-blank-got-receiver = GPS
pack-blank-got-map = carte papier
pack-blank-got-screen = carte à l’écran
pack-blank-found-surface = en surface
pack-blank-found-section = en coupe
pack-blank-found-dug = déterrée
pack-blank-bulbar-scar = esquillement du bulbe
pack-blank-dorsal-ridges = nervures
pack-blank-mark-platform = le plan qui a reçu le coup
pack-blank-mark-bulb = le renflement au-dessous
pack-blank-mark-bulbar-scar = un petit éclat parti du bulbe
pack-blank-mark-ripples = les ondes du coup
pack-blank-mark-dorsal-ridges = entre les négatifs d’enlèvements
pack-blank-mark-retouch = petits enlèvements réguliers d’un bord
pack-blank-photograph-face = face inférieure
pack-blank-photograph-back = face supérieure
pack-blank-photograph-side = profil
pack-blank-photograph-scale = avec échelle
pack-blank-drawing = Un éclat taillé dessiné de trois côtés. Face inférieure : le talon en haut, le bulbe au-dessous avec un petit esquillement, des ondulations qui s’élargissent vers le bas. Profil : le bulbe se renfle sous le talon. Face supérieure : des nervures entre les négatifs d’enlèvements, et une retouche le long du bord droit.
pack-blank-cautions = Demandez l’accord du propriétaire avant de chercher, et restez à l’écart des sites protégés. Signalez vos découvertes au service compétent. Sur l’estran, attention aux marées et aux falaises. Ne publiez pas les lieux : un lieu précis, une fois public, attire les fouilles clandestines et ne se rattrape plus.
pack-slip-title = La pierre que vous avez montrée
pack-slip-number = Numéro
pack-slip-date = date
pack-slip-seen = Ce qui a été vu
pack-slip-no-mark = rien de tout cela
pack-slip-strength = Force des indices d’une taille par l’homme
pack-slip-natural = pierre naturelle, pensons-nous
pack-slip-class = Type
pack-slip-period = période estimée
pack-slip-unsure = Ce qui reste incertain
pack-slip-next = Ce que vous pouvez faire ensuite
pack-slip-next-place = Notez le lieu (coordonnées, à combien près) et le jour. Gardez-les pour vous : un lieu publié attire les fouilles clandestines.
pack-slip-next-office = Prévenez le service compétent. La loi oblige à déclarer certaines découvertes : il sait ce qui s’applique chez vous.
pack-slip-next-office-france = Prévenez le service compétent. En France, les découvertes fortuites, préhistoriques comprises, sont déclarées sans délai au maire.
pack-slip-next-rest = Laissez le reste en place et ne creusez pas. Demandez l’accord du propriétaire avant d’y retourner ; sur l’estran, attention aux marées et aux falaises.
pack-slip-office = Service à prévenir
pack-slip-tear = à détacher et à nous laisser
pack-slip-consent = Votre accord : cochez ce que vous acceptez
pack-slip-consent-keep = Vous pouvez garder mon nom, et où me joindre, avec la fiche.
pack-slip-consent-name = Vous pouvez transmettre mon nom au service compétent.
pack-slip-consent-place = Vous pouvez garder le lieu et le transmettre à ce service.
pack-slip-consent-show = Vous pouvez montrer la pièce sans mon nom, son lieu par un grand carré ou la seule commune.
pack-slip-name = nom
pack-slip-reach = où vous joindre
pack-slip-signed = signature
pack-slip-change = Vous pouvez changer d’avis à tout moment : dites-le-nous, et la fiche sera modifiée. Sans case cochée, ni nom ni lieu ne sont transmis.

### The parish sheet

pack-parish-title = Pierres taillées à { $parish }
pack-parish-lead = { $n ->
    [one] { $n_text } pierre taillée est enregistrée dans cette commune.
   *[other] { $n_text } pierres taillées sont enregistrées dans cette commune.
}
pack-parish-about = { $n ->
    [one] Environ { $n_text } pierre taillée est enregistrée dans cette commune (estimation).
   *[other] Environ { $n_text } pierres taillées sont enregistrées dans cette commune (estimation).
}
pack-parish-none = Aucune pierre taillée n’est encore enregistrée à { $parish }.
pack-parish-squares = La carte les montre par { $precision }, certaines par de plus grands : un carré teinté contient des pièces quelque part en son sein, et rien de plus fin n’est dit. Les pièces des carrés à cheval sur la limite sont partagées selon la surface.
pack-parish-by-parish = Elles sont comptées pour la commune entière : aucun lieu n’y est indiqué.
pack-parish-white = Un terrain sans teinte n’est pas vide : personne n’y a peut-être cherché.
pack-parish-by-class = Ce qui a été trouvé
pack-parish-by-period = L’âge possible
pack-parish-others = Autres
pack-parish-found = Vous avez trouvé quelque chose ?
pack-parish-found-do = Laissez le reste en place, notez l’endroit et le jour, gardez-les pour vous et prévenez le service compétent ou la société locale. La loi oblige à déclarer certaines découvertes.
pack-parish-found-do-france = Laissez le reste en place, notez l’endroit et le jour, gardez-les pour vous et prévenez le service compétent ou la société locale. En France, les découvertes fortuites, préhistoriques comprises, sont déclarées sans délai au maire.
pack-parish-places = Les lieux sont montrés largement, à dessein : un lieu précis, une fois public, attire les fouilles clandestines. Ne cherchez pas à les retrouver.
pack-parish-land = Cette carte n’ouvre aucun passage. Demandez l’accord du propriétaire avant d’entrer ; les sites protégés ont leurs règles ; sur l’estran, attention aux marées et aux falaises.

### A landowner’s copy

pack-land-title = Ce qui vient de vos terrains
pack-land-found = Ce qui a été trouvé
pack-land-lead = { $pieces ->
    [one] { $pieces_text } pierre taillée
   *[other] { $pieces_text } pierres taillées
} en { $records ->
    [one] { $records_text } fiche : voilà
   *[other] { $records_text } fiches : voilà
} ce qui est noté comme venant de ces terrains ({ $land }).
pack-land-nothing = Rien dans l’inventaire n’est noté comme venant de ces terrains : { $land }.
pack-land-what = Cette copie contient ce que les inventeurs ont noté comme venant de ces terrains, et rien d’autre. Ce qu’ils n’ont pas noté n’y est pas.
pack-land-list = Pièce par pièce
pack-land-list-cut = Les { $n_text } premières fiches ; le tableau du début les compte toutes.
pack-land-map = Les lieux sont montrés par { $precision }. Un carré teinté contient des pièces quelque part en son sein ; ses bords ne sont pas la limite d’un site. Ne faites pas circuler les cartes : elles disent où chercher.
pack-land-kept = Où les pièces sont conservées
pack-land-kept-where = Ce que vous avez convenu avec les inventeurs sur la garde des pièces reste valable ; cette page n’y change rien. Vous pouvez demander à les voir.
pack-land-kept-unknown = non renseigné
pack-land-pieces = { $n ->
    [one] { $n_text } pièce
   *[other] { $n_text } pièces
}
pack-land-asked = Ce que demandent les inventeurs
pack-land-thanks = Merci d’avoir laissé prospecter. Sans votre accord, rien de cela ne serait connu.
pack-land-ask = Cochez ce que vous acceptez, signez et renvoyez cette page à { $to }. Un refus ne fâche personne.
pack-land-ask-giver = la personne qui vous l’a remise
pack-land-ask-record = Le service destinataire peut conserver ces découvertes, avec leurs lieux aussi précisément que convenu avec lui.
pack-land-ask-show = Les découvertes peuvent être montrées par de grands carrés ou par commune, sans le nom des terrains.
pack-land-ask-name = Le nom des terrains peut figurer à côté des découvertes dans ce que conserve ce service.
pack-land-ask-walk = On peut revenir prospecter, en demandant chaque fois.
pack-land-ask-see = J’aimerais voir les pièces.
pack-land-unsaid = Ce qui n’est pas coché n’est pas accordé. Vous pouvez changer d’avis à tout moment.

### What the fields of layers and rows mean

pack-report-fields = Les champs des couches
pack-fields-intro = Le { $table } dit ce que veut dire chaque champ des couches. La même liste accompagne les couches : fields.csv. Les longueurs sont en mètres du quadrillage de travail sauf autre unité ; ce qui n’est pas connu reste vide, jamais zéro.
pack-fields-title = Champs, unités et sûreté
pack-fields-layer = Couche
pack-fields-field = Champ
pack-fields-unit = Unité
pack-fields-meaning = Sens
pack-unit-count = pièces
pack-unit-per-hectare = pièces/ha
pack-unit-date = comme écrit
pack-file-fields = le sens de chaque champ des couches et des lignes, son unité et sa sûreté
pack-field-number = Le numéro de l’inventaire. Il reste à la pièce.
pack-field-reference = Le carré dans la notation du quadrillage. Il nomme l’angle sud-ouest ; la pièce se trouve quelque part dans le carré.
pack-field-side-m = Côté du carré. Comme point, prendre son centre, avec la demi-diagonale (0,71 du côté) pour incertitude minimale.
pack-field-easting-m = Angle sud-ouest du carré, tronqué, jamais arrondi.
pack-field-northing-m = Angle sud-ouest du carré, tronqué, jamais arrondi.
pack-field-held-m = Côté du carré avec lequel le lieu a été noté : la finesse détenue, non son exactitude.
pack-field-uncertainty-m = Demi-diagonale du carré donné, avec ce que la source et l’opération y ajoutent.
pack-field-written-system = Le système dans lequel le lieu a été noté.
pack-field-operation = Comment le lieu a été porté dans le quadrillage de travail, avec l’exactitude.
pack-field-parish = La commune : telle qu’indiquée, ou telle que la couche la nomme.
pack-field-parish-of-cell = Les communes du carré, celle qui en a le plus d’abord : celles du carré, non de la pièce.
pack-field-class = Classe dans les mots de l’étude. Indéterminée si le mot de l’inventaire n’est pas connu.
pack-field-class-as-written = Classe telle que dans l’inventaire.
pack-field-period = Période nommée. Un nom vaut une fourchette d’années, qui dépend du pays.
pack-field-period-as-written = Période telle que dans l’inventaire.
pack-field-pieces = Nombre de pièces : le chiffre, ou une tranche (1–2, 3–9, 10–49, 50+) quand un seul carré ne peut le dire. Par commune, les pièces des carrés à cheval sont partagées selon la surface, au dixième.
pack-field-count-rough = Si l’inventaire donne le nombre à peu près ; c’est alors le moindre que les mots garantissent.
pack-field-marks = Stigmates relevés. Un stigmate absent n’a peut-être pas été cherché.
pack-field-strength = Ce que valent les stigmates relevés pour une taille humaine : une règle d’usage, non une probabilité.
pack-field-setting = Où elle se trouvait.
pack-field-standing = Si elle était en place.
pack-field-material = Matière, comme écrit.
pack-field-length-mm = Plus grande longueur notée, au dixième.
pack-field-weight-g = Poids noté, au dixième.
pack-field-date = Quand elle a été trouvée, comme écrit.
pack-field-finder = Qui l’a trouvée ou montrée.
pack-field-looked-at-by = Qui l’a examinée.
pack-field-kept-at = Où elle est conservée.
pack-field-landowner = Le propriétaire ou l’exploitation, comme indiqué.
pack-field-permission = Si le propriétaire a donné son accord, comme indiqué.
pack-field-note = La remarque, sans ce qui se lit comme un lieu.
pack-field-handling = La mention d’un dossier qui n’est pas à publier.
pack-field-out-of-place = Parmi les pièces, celles apportées plus tard ; elles restent hors des densités.
pack-field-classes = Classes présentes, chacune avec ses pièces.
pack-field-periods = Périodes présentes, chacune avec ses pièces.
pack-field-letter = La lettre de la concentration sur les cartes et dans les tableaux.
pack-field-hectares = Surface. D’une concentration : celle de carrés entiers, son bord n’est donc pas la limite d’un site.
pack-field-may-hold = D’autres pièces, dans de plus grands carrés, qui s’y trouvent peut-être.
pack-field-per-hectare = Densité moyenne dans le contour, à deux chiffres.
pack-field-greatest-density = Plus forte densité dans le contour, à deux chiffres ; elle dépend de la largeur de noyau.
pack-field-firm = Part des rééchantillonnages où la concentration revient.
pack-field-p-global = Combien de fois un semis uniforme atteint autant où que ce soit.
pack-field-p-pointwise = Combien de fois un semis uniforme atteint autant dans ce carré.
pack-field-square-km = Surface de la commune dans la couche.
pack-field-band-1 = Densité de pièces : −1 là où il n’y a pas de terrain, et à deux chiffres significatifs près ; largeur de noyau, pixel et bord sont dans les métadonnées du fichier.
pack-field-pieces-per-hectare = Niveau de la courbe.
pack-field-ground = Le nom du terrain prospecté.
pack-field-walked-by = Qui l’a prospecté.
pack-field-from = Premier jour.
pack-field-to = Dernier jour.
pack-field-visits = Combien de fois.
pack-field-people-hours = Heures de terrain, de tous les prospecteurs ensemble.
pack-field-line-spacing-m = Écart entre les lignes parcourues.
pack-field-cover = Part du terrain qui a été regardée.
pack-field-visibility = La lisibilité du sol, dans les mots des prospecteurs.
pack-field-kept = Ce qui a été ramassé de ce qui a été vu.

### The cover page of a submission

pack-cover = L’envoi en bref
pack-cover-from = De
pack-cover-records = Fiches
pack-cover-records-told = { $records ->
    [one] { $records_text } fiche
   *[other] { $records_text } fiches
} pour { $pieces ->
    [one] { $pieces_text } pièce
   *[other] { $pieces_text } pièces
}, dont { $parish_text } situées par la seule commune. Lignes de l’inventaire : { $read_text } lues, { $aside_text } écartées.
pack-cover-state = État
pack-cover-state-told = Tel que le registre le donne ce jour : aucun compte n’a été tenu des envois antérieurs. Les numéros sont ceux du registre.
pack-cover-grid = Quadrillage
pack-cover-precision = Précision
pack-cover-precision-told = Donnée : { $given }. Détenue : carrés de { $least } à { $most }, pièce par pièce.
pack-cover-consent = Accord
pack-cover-consent-told = { $n ->
    [one] { $n_text } fiche dit
   *[other] { $n_text } fiches disent
} où en est l’accord du propriétaire, sur { $records_text }. Ce qui a été accepté de plus est à demander à l’expéditeur.
pack-cover-consent-unshown = Les accords ne font pas partie de cet envoi.
pack-cover-folder = Dans ce dossier
pack-cover-file-rows = { $file } ({ $n ->
    [one] { $n_text } ligne
   *[other] { $n_text } lignes
})
pack-cover-file-maps = maps/ ({ $n ->
    [one] { $n_text } fichier
   *[other] { $n_text } fichiers
})
pack-cover-contact = À qui s’adresser, et comment
pack-cover-cut = à découper et à renvoyer
pack-cover-receipt = Accusé de réception
pack-cover-receipt-told = { $recipient } a reçu de { $sender } : « { $title } »{ $edition }, { $records ->
    [one] { $records_text } fiche
   *[other] { $records_text } fiches
}.
pack-cover-received = Reçu le, par
pack-cover-reference = Saisi le, par ; votre référence
pack-cover-questions = Questions

### A submission: what an office enters, its terms, its seal

pack-column-state = État de la fiche
pack-field-state = Où en est la fiche par rapport aux envois antérieurs : nouvelle, modifiée, retirée ou inchangée ; vide si aucun compte n’est tenu.
pack-column-how-found = Mode de découverte
pack-field-how-found = Comment la pièce a été trouvée, tel qu’écrit.
pack-column-depth = Profondeur
pack-field-depth = Profondeur, telle qu’écrite, avec son unité.
pack-column-breadth-mm = Largeur (mm)
pack-field-breadth-mm = Largeur notée, au dixième.
pack-column-thickness-mm = Épaisseur (mm)
pack-field-thickness-mm = Épaisseur notée, au dixième.
pack-column-condition = État de conservation
pack-field-condition = État de la pièce, tel qu’écrit.
pack-column-examined = Mode d’examen
pack-field-examined = Examinée en main ou sur photographie, tel qu’écrit.
pack-column-owner = Propriétaire de la pièce
pack-field-owner = À qui est la pièce, tel qu’écrit. La propriété suit la loi du lieu.
pack-column-grid = Quadrillage
pack-field-grid = Le quadrillage du carré.
pack-column-recorded-as = Carré dans le système d’origine (référence ou centre)
pack-field-recorded-as = Le carré dans le système d’origine : sa référence, ou son centre. Calculé à partir du carré, jamais des chiffres notés.
pack-column-how-placed = Mode de localisation
pack-field-how-placed = Comment le lieu a été relevé, tel qu’écrit : instrument, carte.
pack-column-place-name = Lieu-dit
pack-field-place-name = Lieu-dit, tel qu’écrit. Donné seulement avec des carrés de 100 m au plus : avec de plus grands, il en dirait plus que le carré.
pack-column-commune-code = Code de la commune
pack-field-commune-code = Code de la commune, tel qu’écrit.
pack-column-section = Section
pack-field-section = Section du cadastre. Donnée seulement avec des carrés de 100 m au plus.
pack-column-parcel = Parcelle
pack-field-parcel = Parcelle du cadastre. Donnée seulement avec des carrés de 100 m au plus.
pack-column-plan-year = Année du plan
pack-field-plan-year = Année du plan dont sont la section et la parcelle : les parcelles sont renumérotées.
pack-column-authorisation = Autorisation
pack-field-authorisation = Autorisation, telle qu’écrite, là où la loi en demande une.
pack-column-declaration = Déclaration
pack-field-declaration = Déclaration, telle qu’écrite, là où la loi en demande une.
pack-column-photographs = Photographies
pack-field-photographs = Photographies, par leur nom. Elles ne sont pas dans ce dossier.
pack-column-kept-or-left = Conservé ou laissé
pack-field-kept-or-left = Ce qui a été conservé et ce qui a été laissé, tel qu’écrit.
pack-column-publication = Publication antérieure
pack-field-publication = Où la pièce a déjà été publiée, tel qu’écrit.
pack-column-names-consent = Accord pour conserver les noms
pack-field-names-consent = Si les personnes nommées acceptent que le service conserve leur nom, tel qu’écrit. Sinon, les noms sont retirés.
pack-column-may-publish = Peut être publié
pack-field-may-publish = Ce que le destinataire peut publier, selon l’accord.
pack-column-why-no-more = Pourquoi pas plus
pack-field-why-no-more = Pourquoi les lieux ne sont pas montrés plus finement.
pack-column-review = Révision
pack-field-review = Quand l’accord sera revu.
pack-column-embargo = Embargo jusqu’au
pack-field-embargo = À ne pas montrer à d’autres avant ce jour : de la fiche, ou de tout l’envoi.
pack-column-edition = Édition
pack-field-edition = L’édition de l’envoi dont la fiche fait partie.
pack-column-method = Méthode
pack-field-method = Comment le terrain a été prospecté.
pack-column-light = Lumière
pack-field-light = La lumière, dans les mots des prospecteurs.
pack-column-crop = Culture
pack-field-crop = Ce qui y poussait, et à quelle hauteur.
pack-column-picked-up = Ramassé
pack-field-picked-up = Nombre de pièces ramassées. « Rien » : le terrain a été parcouru et n’a rien donné. Vide : non précisé.
pack-column-left = Laissé
pack-field-left = Ce qui a été laissé sur place, dans les mots des prospecteurs.
pack-state-new = nouvelle
pack-state-amended = modifiée
pack-state-withdrawn = retirée
pack-state-unchanged = inchangée
pack-walk-nothing = rien
pack-withheld-how-found = Comment les pièces ont été trouvées, et à quelle profondeur.
pack-shown-how-found = mode de découverte et profondeur
pack-withheld-condition = L’état de chaque pièce.
pack-shown-condition = état
pack-withheld-owner = À qui sont les pièces.
pack-shown-owner = propriétaire de la pièce
pack-withheld-place-name = Les lieux-dits.
pack-shown-place-name = lieu-dit
pack-withheld-parcel = Les sections et parcelles du cadastre.
pack-shown-parcel = section et parcelle
pack-withheld-authorisation = Les autorisations et déclarations.
pack-shown-authorisation = autorisation et déclaration
pack-withheld-photographs = Les noms des photographies.
pack-shown-photographs = photographies
pack-withheld-kept-or-left = Ce qui a été conservé et ce qui a été laissé.
pack-shown-kept-or-left = conservé ou laissé
pack-withheld-publication = Les publications antérieures.
pack-shown-publication = publication antérieure
pack-withheld-names-consent = Qui accepte que son nom soit conservé.
pack-shown-names-consent = accord pour les noms
pack-withheld-embargo = Les conditions et embargos de chaque pièce.
pack-shown-embargo = conditions et embargo
pack-sheet-heading-found = Trouvée
pack-sheet-depth = profondeur { $value }
pack-sheet-pieces = pièces : { $value }
pack-sheet-recorded-as = notée dans un autre système, où le centre du carré est { $value }
pack-sheet-section = section { $value }
pack-sheet-parcel = parcelle { $value }
pack-sheet-plan-year = plan de { $value }
pack-sheet-kept-or-left = conservé ou laissé : { $value }
pack-sheet-owner = propriétaire de la pièce : { $value }
pack-sheet-names-consent = accord pour les noms : { $value }
pack-sheet-authorisation = autorisation { $value }
pack-sheet-declaration = déclaration { $value }
pack-sheet-photographs = photographies : { $value }
pack-sheet-publication = publiée : { $value }
pack-sheet-embargo = embargo : { $value }
pack-submission-extent = Les découvertes viennent de terrains que quelqu’un a parcourus. Sans ce tableau, on ne distingue pas un terrain qui n’a rien donné d’un terrain où personne n’a cherché.
pack-submission-walked = { $n ->
    [one] { $n_text } terrain figure
   *[other] { $n_text } terrains figurent
} ici, { $hectares } ha en tout, pour autant que ce soit précisé.
pack-submission-blank = { $n ->
    [one] L’un d’eux n’a rien donné
   *[other] { $n_text } d’entre eux n’ont rien donné
} : { $grounds }.
pack-submission-no-blank = Aucun n’est donné comme n’ayant rien livré.
pack-submission-blank-unsaid = Ceux qui n’ont rien donné ne sont pas précisés.
pack-terms = Qui peut voir ce dossier, et qu’en faire
pack-terms-shows-closely = Ce dossier montre où était chaque pièce, par { $precision } : assez près pour y aller. C’est un dépôt, non une publication, et plus que ce que le public apprend.
pack-terms-shows = Ce dossier montre où était chaque pièce, par { $precision }. C’est un dépôt, non une publication, et il en dit plus que ce que le public apprend.
pack-terms-who = Qui peut le recevoir
pack-terms-who-told = { $recipient } : ceux dont le travail le demande. Personne d’autre sans l’accord de l’expéditeur.
pack-terms-publish = Ce qui peut être publié
pack-terms-nothing = rien, tant que l’expéditeur ne l’a pas accepté par écrit
pack-terms-as-public = pas plus que ce qui est montré au public : { $precision }, ou moins finement là où c’est prévu
pack-terms-as-shown = ce qu’il montre
pack-terms-why = Pourquoi pas plus
pack-terms-why-told = un lieu précis, une fois publié, attire les fouilles clandestines et les intrusions, et ne peut être repris
pack-terms-embargo = Embargo jusqu’au
pack-terms-embargo-each = aucun pour l’ensemble ; certaines fiches peuvent en avoir un
pack-terms-review = À revoir
pack-terms-edition = Édition
pack-terms-unsaid = non précisé
pack-terms-do-keep = Conservez-le là où seuls ceux qui en ont besoin peuvent le lire, et retirez-le des messageries et des dossiers partagés. Avant de transmettre une carte, un extrait ou un résultat de recherche, ramenez les lieux à ce qui peut être publié.
pack-terms-do-ask = Si quelqu’un le demande au titre d’une loi sur l’accès aux documents, la loi de votre pays décide ; prévenez d’abord l’expéditeur, et signalez que ces lieux demandent protection.
pack-terms-do-names = Les noms sont des données personnelles. Ils sont là pour vos dossiers ; ne les montrez à d’autres que si les personnes nommées l’acceptent.
pack-terms-do-land = Une fiche n’est pas un droit de passage : une visite demande l’accord du propriétaire, et les sites protégés ont leurs propres règles.
pack-terms-do-mistakes = Signalez les erreurs sur l’accusé de réception, par le numéro de la fiche. Les numéros ne changent jamais : une fiche modifiée prend la place de l’ancienne.
pack-terms-do-yours = Vos propres règles sur les lieux sensibles, la pratique autorisée et la loi passent avant cette page.
pack-cover-withdrawn = Retirées depuis l’édition précédente, à rayer : { $list }.
pack-cover-withdrawn-more = { $n ->
    [0] Aucune autre n’est nommée dans finds.csv.
    [one] Une autre est nommée dans finds.csv.
   *[other] { $n_text } autres sont nommées dans finds.csv.
}
pack-cover-state-counted = { $new_text } nouvelles, { $amended_text } modifiées, { $withdrawn_text } retirées, { $unchanged_text } inchangées. Les numéros sont ceux du registre.
pack-cover-names = Noms
pack-cover-names-told = { $stated_text } fiches disent si les noms peuvent être conservés. Noms retirés faute d’accord : dans { $withheld_text }.
pack-cover-places-withheld = Lieux-dits et parcelles omis, parce qu’ils en diraient plus que le carré : dans { $n_text }.
pack-seal-open-key = Ce fichier est scellé au format ouvert age v1 (age-encryption.org/v1). Tout programme pour ce format l’ouvre avec la clé secrète qui va avec la clé que vous avez donnée.
pack-seal-open-passphrase = Ce fichier est scellé au format ouvert age v1 (age-encryption.org/v1). Tout programme pour ce format l’ouvre avec la phrase secrète. La phrase prend un autre chemin que le fichier : au téléphone, ou de la main à la main.
pack-seal-open-zip = À l’intérieur, un ZIP contient le dépôt ; commencez par README.txt.
pack-seal-told = padding.bin ne contient que des zéros : il porte le fichier à l’une de quelques tailles, pour que sa longueur ne dise pas combien il y a de pièces. Supprimez-le.
    Le scellé protégeait les lieux en chemin. Une fois ouvert, ils sont aussi sûrs que le disque où ils reposent : gardez-les là où seuls ceux qui en ont besoin peuvent les lire.
pack-seal-key = « { $key } » n’est pas une clé pour sceller
    .hint = Une clé s’écrit age1 suivi de 58 lettres et chiffres, copiée en entier. Demandez la sienne au service.
pack-seal-secret-key = ceci est une clé secrète : elle ouvre ce qui est scellé, et n’est qu’à son détenteur
    .hint = Scellez avec la clé qui commence par age1. Si quelqu’un vous a envoyé sa clé secrète, dites-lui d’en faire une nouvelle paire.
pack-seal-nobody = aucune clé pour sceller
    .hint = Donnez la clé du service, age1…, ou un fichier qui en contient une par ligne.
pack-seal-passphrase-short = la phrase secrète a moins de { $least } caractères : elle pourrait être devinée
    .hint = Tirez au sort cinq mots ou plus, avec des dés et une liste par exemple, et séparez-les par des espaces.
pack-seal-failed = le dossier n’a pu être scellé ({ $why })
    .hint = Rien n’a été écrit. Recommencez ; si cela se répète, merci de le signaler.
pack-cover-names-unsaid = Le registre ne dit pas si les noms peuvent être conservés. À demander à l’expéditeur avant que des noms soient montrés à d’autres.
pack-terms-fact = { $name } : { $value }
