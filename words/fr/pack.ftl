# Mots du dossier : rapport, dépôt, couches, tableaux, et ce qui peut manquer en les écrivant.

pack-not-for-publication = Ne pas publier
pack-total = Total
pack-percent = { $n } %
pack-path = « { $path } » ne peut être le chemin d'un fichier du dossier
    .hint = C'est une faute du programme lui-même. Merci de la signaler.
pack-old-kept = le nouveau dossier n'a pu être mis en place ({ $why }) ; l'ancien a été déplacé dans { $folder }
    .hint = Remettez ce dossier à sa place à la main.
pack-file-is-folder = { $path } est un dossier
    .hint = Donnez le nom d'un fichier à écrire.
pack-file-exists = { $path } existe déjà
    .hint = Déplacez-le ou choisissez un autre nom.
pack-folder-foreign = { $folder } n'est pas vide et ne contient pas de dossier écrit par ce programme
    .hint = Choisissez un nouveau dossier avec --out. Seul un ancien dossier de ce programme est remplacé.
pack-folder-is-file = { $folder } n'est pas un dossier
    .hint = Choisissez un autre nom avec --out.
pack-folder-additions = { $folder } contient un fichier qui n'en fait pas partie : { $file }
    .hint = Déplacez ce fichier, ou choisissez un nouveau dossier avec --out. L'ancien serait remplacé en entier.
pack-not-written = { $path } ne peut être écrit : { $why }
    .hint = Vérifiez que le dossier existe, que vous pouvez y écrire et que le disque a de la place. Rien n'a été laissé.
pack-layer = { $name } ne peut être fait : { $why }
    .hint = Rien n'a été écrit. Si la grille de l'étude est peu courante, essayez l'une de celles que le programme nomme.

## Couches
pack-layer-cells = Carrés avec découvertes
pack-layer-cells-caution = Chaque carré est le lieu tel qu'il a été convenu. Rien n'y dit où, dans le carré, se trouvait une pièce. Ses angles sont ceux de la grille.
pack-layer-concentrations = Où les découvertes sont denses
pack-layer-concentrations-caution = Les contours suivent les bords des carrés. Ce ne sont pas des limites de sites, et le terrain au-dehors n'est pas vide.
pack-layer-parishes = Découvertes par commune
pack-layer-parishes-caution = Les pièces d'un carré qui franchit une limite sont partagées entre les communes selon la surface.
pack-layer-finds = Découvertes
pack-layer-fieldwork = Prospection
pack-layer-fieldwork-caution = Les parcelles qui n'ont rien livré y figurent aussi : elles ont été parcourues.
pack-density-units = pièces par hectare
pack-density-bandwidth-meaning = écart type du noyau gaussien, en mètres
pack-density-band = Pièces par hectare
pack-density-caution = Calculée à partir des carrés, jamais des lieux exacts. Une valeur forte n'est pas un site, une valeur faible peut être un terrain que personne n'a parcouru.

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
pack-layer-contours-caution = Les courbes sont tracées d'après des carrés et s'arrêtent au bord du terrain. Ce ne sont pas des limites de sites, et une faible densité peut venir d'un terrain que personne n'a parcouru.
pack-column-may-hold = Peut contenir
pack-column-parish = Commune
pack-column-square-km = Km carrés
pack-column-handling = Diffusion
pack-column-number = Numéro
pack-column-easting-m = Est de l'angle sud-ouest (m)
pack-column-northing-m = Nord de l'angle sud-ouest (m)
pack-column-held-m = Précision détenue (m)
pack-column-uncertainty-m = Incertitude (m)
pack-column-written-system = Système noté
pack-column-operation = Opération
pack-column-parish-of-cell = Commune du carré
pack-column-class = Classe
pack-column-class-as-written = Classe telle qu'écrite
pack-column-period = Période
pack-column-period-as-written = Période telle qu'écrite
pack-column-count-rough = Nombre approché
pack-column-marks = Marques de taille
pack-column-strength = Force des marques
pack-column-setting = Milieu
pack-column-standing = Position
pack-column-material = Matière
pack-column-length-mm = Longueur (mm)
pack-column-weight-g = Masse (g)
pack-column-date = Date de découverte
pack-column-finder = Inventeur
pack-column-looked-at-by = Examiné par
pack-column-kept-at = Conservé à
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
pack-workbook-about = Chaque feuille est un tableau du dossier. Les chiffres sont des nombres, que l'on peut additionner ; les intitulés sont sur la première ligne.

## Précision et ce qui est retenu
pack-precision-squares = carrés de { $side }
pack-precision-parish = la commune seule
pack-stricter-near = à moins de { $distance } d'un terrain protégé
pack-withheld-finer = Le lieu d'une découverte, plus finement que : { $precision }.
pack-withheld-finer-parish = Le lieu d'une découverte dans sa commune.
pack-withheld-class = La classe de chaque découverte.
pack-withheld-period = La période de chaque découverte.
pack-withheld-count = Le nombre de pièces.
pack-withheld-strength = La force des marques de taille humaine.
pack-withheld-parish = La commune.
pack-withheld-stated-parish = La commune donnée par l'inventeur.
pack-withheld-number = Les numéros d'inventaire.
pack-withheld-setting = Le milieu de chaque découverte : plage, labour, jardin, etc.
pack-withheld-standing = Si chaque pièce était en place.
pack-withheld-marks = Les marques relevées sur chaque pièce.
pack-withheld-material = La matière de chaque pièce.
pack-withheld-measurements = Longueurs et masses.
pack-withheld-date = Les dates de découverte.
pack-withheld-finder = Les noms des inventeurs et des propriétaires.
pack-withheld-looked-at-by = Qui a examiné chaque pièce.
pack-withheld-kept-at = Où les pièces sont conservées.
pack-withheld-permission = Les accords des propriétaires.
pack-withheld-note = Les notes.
pack-withheld-written = Les lieux tels qu'ils ont été notés.
pack-withheld-fieldwork = Qui a parcouru quel terrain, et quand.

## LISEZ-MOI
pack-readme-handling = Ce dossier contient des lieux confiés sous réserve. Gardez-le parmi les personnes pour qui il a été fait ; ne le placez ni sur un disque partagé ni sur un site web.
pack-readme-pack = Ce dossier contient ce qui peut être montré d'un inventaire de pierres taillées : cartes, tableaux et couches, avec un rapport qui les explique. Commencez par le rapport, s'il y en a un.
pack-readme-submission = Ce dossier contient un dépôt de découvertes de pierres taillées : une ligne par découverte, à la précision convenue, avec la prospection d'où elles viennent.
pack-readme-made = Il a été fait par { $program } pour { $recipient }. Précision des lieux : { $precision }, dans la grille { $grid }. Le même inventaire et les mêmes réglages donnent les mêmes fichiers, octet pour octet.
pack-readme-files = Ce qu'il contient :
pack-readme-withheld = Ce qui a été retenu, par nature :
pack-readme-reason = Pourquoi : { $reason }
pack-readme-cautions = À garder à l'esprit :
pack-readme-credits = Fonds de carte, avec la mention et la licence données par leurs auteurs :
pack-file-report-html = le rapport, pour l'écran ; un seul fichier qui se suffit
pack-file-report-pdf = le rapport, pour le papier
pack-file-submission-html = le dépôt, pour l'écran
pack-file-submission-pdf = le dépôt, à imprimer
pack-file-cells-geojson = carrés avec découvertes, pour tout logiciel de cartographie (WGS84)
pack-file-cells-kml = les mêmes carrés, pour un globe virtuel
pack-file-concentrations = contours des zones denses (WGS84)
pack-file-contours = courbes de la surface de densité, à des niveaux ronds (WGS84)
pack-file-density = la surface de densité, en pièces par hectare, dans la grille de l'étude
pack-file-geopackage = toutes les couches en un fichier, dans la grille de l'étude
pack-file-workbook = tous les tableaux en un classeur
pack-file-finds-csv = une ligne par découverte
pack-file-finds-gpkg = les mêmes découvertes en carrés, pour un logiciel de cartographie, avec la prospection
pack-file-fieldwork-csv = qui a parcouru quel terrain, quand et comment
pack-file-maps = chaque carte en SVG, PNG et PDF
pack-file-tables = chaque tableau en CSV et Markdown
pack-file-manifest = ce qui a été convenu, ce qui a été retenu, et chaque fichier avec son empreinte
pack-file-readme = cette liste, en texte simple

## Rapport
pack-report-title = Rapport de répartition
pack-report-contents = Sommaire
pack-report-skip = Aller au rapport
pack-report-figure = Figure
pack-figure-caption = { $title }. Précision des lieux : { $precision }, ou moins fine.
pack-report-table = Tableau
pack-report-figure-in-text = figure
pack-report-table-in-text = tableau
pack-report-section = section
pack-report-back = Retour à l'endroit qui cite cette source, numéro
pack-report-cited = citée page
pack-report-gazetteer = Commune par commune
pack-report-words = Les mots employés ici
pack-report-page = Page
pack-report-of = sur
pack-report-compiled-by = Établi par { $name }
pack-report-for = Pour { $recipient }
pack-report-summary = En bref
pack-report-register = L'inventaire
pack-report-places = Comment les lieux sont montrés
pack-report-maps = Cartes
pack-report-tables = Tableaux
pack-report-concentrations = Concentrations
pack-report-richer-squares = Carrés plus riches
pack-report-shore = Le long du rivage
pack-report-method = Méthode
pack-report-cautions = Avant d'aller, de creuser ou de partager
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
pack-summary-nothing = Aucune découverte ne peut être montrée selon cet accord. L'inventaire et ses défauts sont présentés plus bas.
pack-summary-lead = { $pieces ->
    [one] Une pierre taillée, en une notice, peut être montrée.
   *[other] { $pieces_text } pierres taillées, en { $records ->
        [one] une notice
       *[other] { $records_text } notices
    }, peuvent être montrées.
    }
pack-summary-part = { $name } ({ $pieces } ; { $share })
pack-summary-classes = Les classes les plus fréquentes : { $list }.
pack-summary-periods = Parmi les pièces à leur place et de période nommée, les plus fréquentes : { $list }.
pack-summary-undated = Sans date : { $share } des pièces à leur place ; datées seulement de la Préhistoire : { $prehistoric }. La plupart des pierres taillées ne se datent pas par elles-mêmes ; elles ont donc leurs propres colonnes et ne sont jamais réparties entre les périodes.
pack-summary-by-parish = { $n ->
    [one] Une pièce n'est connue que par sa commune. Elle compte
   *[other] { $n_text } pièces ne sont connues que par leur commune. Elles comptent
    } dans les tableaux et les teintes par commune, mais dans aucun carré ni aucune densité.
pack-summary-out-of-place = { $n ->
    [one] Une pièce n'était pas à sa place
   *[other] { $n_text } pièces n'étaient pas à leur place
    } (déplacées par la mer ou la pente, ou apportées plus tard par des gens) ; { $in ->
    [one] { $in_text } y était
   *[other] { $in_text } y étaient
    }. Les pièces hors de leur place comptent dans les totaux et dans les carrés ; les tableaux par période leur donnent une colonne à part, et la densité les laisse de côté.
pack-summary-more = Avant d'y aller, de fouiller ou de partager ce que vous lisez ici, voyez la { $section }.
pack-summary-precision = Les lieux sont montrés par carrés de { $side } ou plus. Aucun point d'une carte n'est un lieu de découverte.
pack-summary-precision-parish = Les lieux sont montrés par commune. Aucun point d'une carte n'est un lieu de découverte.
pack-register-rows = { $read ->
    [0] Aucune ligne n'a été lue
    [one] Une ligne a été lue
   *[other] { $read_text } lignes ont été lues
    } ; { $used_text } utilisées et { $aside_text } mises de côté. Une ligne inutilisable est gardée avec sa raison, jamais écartée en silence.
pack-register-aside-intro = Le { $table } en donne les raisons.
pack-register-set-aside = Lignes mises de côté
pack-register-reason = Raison
pack-register-rows-heading = Lignes
pack-register-faults = Un inventaire tenu par plusieurs mains pendant des années a des défauts qu'aucun programme ne trouve : une référence recopiée d'un autre champ, une période devinée, un silex naturel pris pour un silex taillé.
pack-register-bias = Il montre aussi où l'on a cherché. Les terrains proches des maisons et des chemins, et les champs labourés quand quelqu'un était libre, sont vus plus souvent. Un carré vide peut être un terrain que personne n'a parcouru.
pack-places-cells = Chaque lieu a été ramené au carré de la grille convenue qui le contient, vers le sud-ouest, comme on le fait des références de carte. Une découverte notée moins finement est montrée dans un carré plus grand. Rien n'a été déplacé au hasard { $sources }.
pack-places-parish = Les découvertes sont montrées par commune seulement { $sources }.
pack-places-everyone = tous
pack-fact-for = Pour
pack-fact-grid = Grille
pack-fact-precision = Précision
pack-fact-smallest-area = Plus petit terrain laissé à une découverte
pack-fact-smallest-count = Moins de pièces qu'il faut pour montrer un lieu
pack-fact-stricter = Montré moins finement : { $what }
pack-fact-shown = Montré d'une découverte
pack-fact-given = Fourni
pack-fact-reason = Raison
pack-fact-review = À revoir
pack-fact-kernel = Noyau
pack-fact-bandwidth = Largeur de noyau (écart type)
pack-fact-bandwidth-choice = Comment elle a été choisie
pack-fact-pixel = Côté d'un pixel
pack-fact-density-pieces = Pièces dans la surface
pack-shown-class = classe
pack-shown-period = période
pack-shown-count = nombre
pack-shown-strength = force des marques
pack-shown-parish = commune du carré
pack-shown-stated-parish = commune donnée
pack-shown-number = numéro
pack-shown-setting = milieu
pack-shown-standing = position
pack-shown-marks = marques
pack-shown-material = matière
pack-shown-measurements = longueur et masse
pack-shown-date = date
pack-shown-finder = inventeur
pack-shown-looked-at-by = qui l'a examinée
pack-shown-kept-at = lieu de conservation
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
pack-places-withheld = Ces choses sont dans l'inventaire, ou peuvent y être, et ne sont pas dites ici :
pack-places-suppressed = { $n ->
    [one] Une pièce de plus se trouve
   *[other] { $n_text } pièces de plus se trouvent
    } dans des lieux qui en ont trop peu pour être montrés ({ $places_text } en tout). Elles ne sont comptées nulle part ailleurs.
pack-places-why = Un lieu précis, une fois publié, ne peut être repris. Il attire les fouilles et les ramassages illégaux, de nuit, et les passages sans permission. Voilà pourquoi les carrés ont cette taille.
pack-maps-reading = Chaque carte porte sa précision, son échelle et ses sources. Un carré teinté dit combien de pièces y ont été notées, et rien de l'endroit.
pack-tables-reading = Les chiffres sont des pièces, non des notices. Les totaux sont ceux des découvertes qui peuvent être montrées.
pack-concentrations-intro = Zones de plus forte densité, qui en tiennent ensemble { $share }. Chacune suit les bords des carrés. C'est une nappe de découvertes telles que notées, plus grande ou plus petite que tout lieu de travail ancien.
pack-concentrations-richer = Carrés de plus forte densité, qui en tiennent ensemble { $share }. Des carrés de cette taille disent seulement qu'il y a plus ici qu'ailleurs.
pack-concentrations-envelope = Zones où les découvertes sont plus denses que ne le donneraient les mêmes enregistrements répartis au hasard et uniformément sur { $over }. Pour l'ensemble des découvertes, p = { $p }. Chacune suit les bords des carrés. C'est une nappe de découvertes telles que notées, plus grande ou plus petite que tout lieu de travail ancien.
pack-concentration-density = Pièces par hectare : { $density }.
pack-concentration-firm = Elle se retrouve dans { $stays_text } des { $of_text } rééchantillonnages des découvertes.
pack-concentration-chance = Face à une répartition uniforme : p = { $p }.
pack-concentrations-none = Aucune zone ne se détache avec les réglages employés.
pack-concentration-heading = Concentration { $letter }
pack-concentration-heading-richer = Carrés plus riches { $letter }
pack-concentration-size = { $hectares } ha en { $cells ->
    [one] un carré
   *[other] { $cells_text } carrés
    } ; pièces : { $pieces }.
pack-concentration-size-alone = { $hectares } ha en { $cells ->
    [one] un carré
   *[other] { $cells_text } carrés
    }.
pack-concentration-may-hold = Une partie des pièces de carrés plus grands qui la recouvrent peut s'y trouver aussi ({ $pieces }).
pack-concentration-classes = Classes : { $list }.
pack-concentration-periods = Périodes : { $list }.
pack-concentrations-caution = Un contour n'est pas la limite d'un site. Là où beaucoup ont souvent marché, les découvertes sont denses sur la carte.
pack-shore-length = Le rivage mesure { $length } après lissage à { $tolerance } ; une ligne plus fine serait plus longue. Les découvertes jusqu'à { $within } du rivage sont comptées { $sources }.
pack-shore-beyond = { $n ->
    [one] Une pièce se trouve plus à l'intérieur et n'est pas comptée
   *[other] { $n_text } pièces se trouvent plus à l'intérieur et ne sont pas comptées
    } ici.
pack-shore-by-parish = { $n ->
    [one] Une pièce n'est connue que par sa commune et ne peut
   *[other] { $n_text } pièces ne sont connues que par leur commune et ne peuvent
    } être placées le long du rivage.
pack-shore-ranges = Un carré se trouve quelque part sur une étendue du rivage, jamais en un point. Ses pièces sont partagées également entre les sections de cette étendue.
pack-method-cells = Les lieux sont convertis dans la grille convenue, avec l'opération et son exactitude pour chacun, puis ramenés à leur carré. Le côté est le plus grand de trois : le côté convenu, le carré dans lequel la découverte a été notée, et le double de son incertitude. Il ne dépend que de tailles, jamais de l'endroit { $sources }.
pack-method-parishes = Quand un carré franchit des limites de communes, ses pièces sont partagées entre elles selon la surface.
pack-method-density = La densité est une estimation par noyau gaussien faite à partir des carrés : les pièces d'un carré y sont étendues également, puis lissées. La largeur est l'écart type du noyau, { $bandwidth }, et la surface est calculée sur des pixels de { $pixel } { $sources }.
pack-method-edge = Ce que le noyau porterait en mer est gardé à terre, en divisant par la part du noyau qui tombe à terre ; la surface contient autant de pièces qu'il y a de découvertes { $sources }.
pack-method-edge-uniform = Au bord du terrain, la surface est divisée, lieu par lieu, par la part d'un noyau qui tombe sur le terrain : un terrain égal reste égal, et la surface ne contient pas forcément autant de pièces qu'il y a de découvertes { $sources }.
pack-method-no-edge = Aucune correction n'a été faite au bord ; la densité y est un peu trop faible.
pack-method-left-out = Hors de la densité : { $place_text } pièces hors de leur place, { $parish_text } connues par leur commune seule.
pack-method-kernel = gaussien
pack-method-concentrations = Les concentrations sont faites des carrés de plus forte densité qui en tiennent ensemble { $share } { $sources }.
pack-method-envelope = Les concentrations sont faites des carrés où la densité dépasse ce que donnerait le hasard : les enregistrements, chacun avec ses pièces, ont été répartis uniformément sur le terrain { $n_text } fois et lissés de la même manière. Un carré en est quand son excès sur la moyenne de ces répartitions, compté en écarts-types, n'est atteint où que ce soit sur le terrain que dans { $level } d'entre elles au plus { $sources }.
pack-method-pointwise-envelope = Les concentrations sont faites des carrés où la densité dépasse ce que donnerait le hasard : les enregistrements, chacun avec ses pièces, ont été répartis uniformément sur le terrain { $n_text } fois et lissés de la même manière. Un carré en est quand sa densité n'est atteinte que dans { $level } d'entre elles au plus ; chaque carré est jugé seul, si bien que quelques-uns ressortent par le seul hasard { $sources }.
pack-method-peaks = Chaque carré s'écoule vers le sommet auquel il monte par la plus forte pente ; { $prominence } fait partie de son voisin. Les carrés qui se touchent par un côté et s'écoulent vers un même sommet forment une zone ; une zone de moins de { $smallest_text } pièces n'est pas donnée { $sources }.
pack-method-prominence-share = un sommet qui s'élève de moins de { $share } de sa hauteur au-dessus du col vers un plus haut
pack-method-prominence-pieces = un sommet qui s'élève de moins de { $pieces } pièces par hectare au-dessus du col vers un plus haut
pack-method-firm = La solidité de chacune a été éprouvée en retirant les enregistrements au sort, avec remise, { $n_text } fois : elle se retrouve dans un tirage qui montre une concentration ayant avec elle au moins la moitié de leurs carrés en commun { $sources }.
pack-method-shore = Le trait de côte a été lissé avec une tolérance de { $tolerance } et coupé en sections de { $stretch }. La longueur d'une côte dépend de la tolérance ; les chiffres par kilomètre ne se comparent qu'à l'intérieur de ce rapport { $sources }.
pack-method-periods = Les périodes sont celles du pays nommé dans l'étude. Une pièce datée d'une période large y est comptée, et non dans les plus étroites.
pack-method-strength = La force des marques suit l'usage courant : forte pour plusieurs nervures alignées avec un talon ou pour une retouche régulière, moyenne pour un bulbe avec un talon ou des nervures seules, faible pour une marque isolée, que font aussi le gel, la charrue et la plage.
pack-method-sources = Sources de la méthode
pack-source-chapman = Chapman, A. D. 2020. Current Best Practices for Generalizing Sensitive Species Occurrence Data. GBIF. doi:10.15468/doc-5jp4-5g10.
pack-source-chapman-wieczorek = Chapman, A. D. et Wieczorek, J. R. 2020. Georeferencing Best Practices. GBIF. doi:10.15468/doc-gg7h-s853.
pack-source-diggle = Diggle, P. 1985. A kernel method for smoothing point process data. Applied Statistics 34, 138–147.
pack-source-silverman = Silverman, B. W. 1986. Density Estimation for Statistics and Data Analysis. Chapman and Hall.
pack-source-scott = Scott, D. W. 1992. Multivariate Density Estimation. Wiley.
pack-source-beardah = Beardah, C. C. et Baxter, M. J. 1996. The archaeological use of kernel density estimates. Internet Archaeology 1.
pack-source-hyndman = Hyndman, R. J. 1996. Computing and graphing highest density regions. The American Statistician 50, 120–126.
pack-source-besag = Besag, J. and Diggle, P. J. 1977. Simple Monte Carlo tests for spatial pattern. Applied Statistics 26, 327–333.
pack-source-chazal = Chazal, F., Guibas, L. J., Oudot, S. Y. and Skraba, P. 2013. Persistence-based clustering in Riemannian manifolds. Journal of the ACM 60(6), 41.
pack-source-edelsbrunner = Edelsbrunner, H., Letscher, D. and Zomorodian, A. 2002. Topological persistence and simplification. Discrete & Computational Geometry 28, 511–533.
pack-source-hennig = Hennig, C. 2007. Cluster-wise assessment of cluster stability. Computational Statistics & Data Analysis 52, 258–271.
pack-source-myllymaki = Myllymäki, M., Mrkvička, T., Grabarnik, P., Seijo, H. and Hahn, U. 2017. Global envelope tests for spatial processes. Journal of the Royal Statistical Society B 79, 381–404.
pack-source-mandelbrot = Mandelbrot, B. 1967. How long is the coast of Britain? Science 156, 636–638.
pack-caution-nighthawking = Les fouilles et les ramassages illégaux, souvent de nuit, détruisent ce que le sol pourrait dire. Les lieux précis sont retenus pour que ce rapport ne conduise personne à un endroit. N'essayez pas de les retrouver, et ne partagez pas ce que vous en savez.
pack-caution-landowner = Tout terrain a un propriétaire, et la plupart des découvertes aussi. Demandez l'accord du propriétaire avant de chercher, et convenez par écrit de ce que devient ce qui est trouvé.
pack-caution-report = Déclarez ce que vous trouvez au service du patrimoine ou de l'archéologie, avec le lieu tel que vous le connaissez, et suivez la loi du lieu.
pack-caution-protected = Les sites protégés ont leurs propres règles. Sur beaucoup, chercher et ramasser sont des délits. Renseignez-vous avant d'y aller.
pack-caution-entry = Une carte n'est pas un droit de passage. Entrer sur un terrain demande une permission, à pied aussi.
pack-caution-tides = Sur le rivage, consultez l'heure de la marée et repartez avant qu'elle ne tourne. Tenez-vous loin du pied et du bord des falaises : elles s'éboulent sans prévenir, surtout après la pluie et le gel.
pack-caution-photographs = Avant de publier une photographie, un trajet ou une date, pensez à ce qu'ils révèlent : horizon, bâtiments et données cachées d'une image peuvent mener à l'endroit.
pack-caution-ask = Rien ici n'est un conseil juridique. La pratique autorisée et l'avis du service du patrimoine passent d'abord.
pack-law-england-wales = En Angleterre et au pays de Galles, certaines découvertes doivent être déclarées dans un délai fixé, d'autres sont signalées librement, et les terrains classés sont protégés. Le service local dira ce qui s'applique.
pack-law-scotland = En Écosse, les découvertes sans maître, de toute matière, appartiennent à la Couronne et doivent être déclarées. L'organisme qui reçoit ces déclarations dira comment.
pack-law-ireland = En Irlande, les découvertes doivent être déclarées en quelques jours et laissées sur place sauf danger ; chercher avec un détecteur demande un accord, et creuser une licence. Le nord et le sud ont chacun leurs lois.
pack-law-france = En France, les découvertes fortuites, préhistoriques comprises, sont déclarées sans délai au maire, qui avertit le service régional de l'archéologie ; fouiller, et chercher avec un détecteur de métaux, demandent une autorisation, et une prospection pédestre suivie se convient avec ce service.
pack-law-other = Les lois sur les découvertes changent d'un pays à l'autre. Demandez au service du patrimoine du lieu avant de chercher.
pack-law-general = L'estran et le fond de la mer ont souvent leurs propriétaires et leurs règles.
pack-citing-made = Rapport de répartition fait avec strew { $version }. Précision des lieux : { $precision }.
pack-citing-credits = Mention des fonds de carte, avec les licences données par leurs auteurs :

pack-places-agreed = Voici ce qui a été convenu ; la { $section } dit comment cela a été fait.
pack-figure-intro = La { $figure } est une planche à part : { $title }.
pack-figure-intro-cells = La { $figure } teinte chaque carré selon le nombre de pièces qui y ont été notées, en quatre tranches.
pack-figure-intro-symbols = La { $figure } dit ce qui a été trouvé dans chaque carré : la forme d'un symbole est la classe, sa couleur la période, sa taille le nombre.
pack-figure-intro-parishes = La { $figure } compte par commune. Les découvertes connues par leur seule commune y ont leur part, et dans aucun carré.
pack-figure-intro-density = La { $figure } lisse les carrés en une surface de pièces par hectare, avec une largeur de noyau de { $bandwidth }. Elle montre d'un coup d'œil l'allure des découvertes et n'invente aucun détail ; la { $section } dit comment elle a été faite.
pack-figure-intro-concentrations = La { $figure } en trace les contours, chacun avec sa lettre.
pack-figure-intro-shore = La { $figure } suit le rivage depuis son kilomètre 0, une barre par section.
pack-table-intro = Le { $table } donne les chiffres : { $title }.
pack-table-intro-class-by-period = Le { $table } croise les classes et les périodes.
pack-table-intro-parish-by-period = Le { $table } croise les communes et les périodes.
pack-table-intro-parish-by-class = Le { $table } dit quelles classes viennent de quelle commune.
pack-table-intro-class-by-strength = Le { $table } dit avec quelle force les marques de chaque classe parlent d'un travail humain.
pack-table-intro-class-by-setting = Le { $table } dit sur quel genre de terrain chaque classe a été ramassée.
pack-table-intro-concentrations = Le { $table } les met côte à côte.
pack-table-intro-concentration-by-class = Le { $table } dit quelles classes se trouvent dans chacune.
pack-table-intro-concentration-by-period = Le { $table } dit quelles périodes se trouvent dans chacune.
pack-table-intro-shore = Le { $table } donne les chiffres de chaque section.
pack-concentration-parishes = { $n ->
    [one] Commune : { $list }.
   *[other] Communes : { $list }.
    }
pack-gazetteer-intro = { $n ->
    [one] La seule commune dont des découvertes peuvent être montrées.
   *[other] Les { $n_text } communes dont des découvertes peuvent être montrées, par ordre de nom.
    } Un carré que plusieurs communes se partagent est réparti entre elles selon la surface : un petit chiffre peut n'être qu'une telle part.
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
    [one] Sous « autre » : { $list }. Les fichiers de tableaux lui donnent sa colonne.
   *[other] Sous « autres » : { $list }. Les fichiers de tableaux donnent à chacune sa colonne.
    }
pack-gazetteer-classes = Par classe : { $list }.
pack-gazetteer-periods = Par période : { $list }.
pack-gazetteer-out-of-place = { $n ->
    [one] Une pièce est déplacée.
   *[other] { $pieces } pièces sont déplacées.
    }
pack-gazetteer-concentrations = { $n ->
    [one] La concentration { $list } s'y trouve, en tout ou en partie ({ $section }).
   *[other] Les concentrations { $list } s'y trouvent, en tout ou en partie ({ $section }).
    }
pack-gazetteer-richer-squares = { $n ->
    [one] Les carrés plus riches { $list } s'y trouvent, en tout ou en partie ({ $section }).
   *[other] Les carrés plus riches { $list } s'y trouvent, en tout ou en partie ({ $section }).
    }
pack-gazetteer-field = { $name } ({ $hectares } ha)
pack-gazetteer-fieldwork = Terrains prospectés : { $list }.
pack-gazetteer-none = { $n ->
    [one] D'une commune aucune découverte n'est montrée : { $list }. Cela ne veut pas dire qu'il n'y en a pas.
   *[other] De { $n_text } communes aucune découverte n'est montrée : { $list }. Cela ne veut pas dire qu'il n'y en a pas.
    }
pack-method-intro = Cette section dit comment les chiffres ont été obtenus. Le { $table }, à la fin, donne chaque réglage : qui a le même inventaire et ces réglages obtient le même rapport.
pack-method-bandwidth = La largeur du noyau a été choisie ainsi : { $how } { $sources }.
pack-method-adaptive = Chaque découverte a sa propre largeur, grande là où elles sont clairsemées { $sources }.
pack-settings-title = Réglages
pack-settings-name = Réglage
pack-settings-value = Valeur
pack-settings-part = Où il entre
pack-part-places = lieux
pack-part-density = densité
pack-part-concentrations = concentrations
pack-part-shore = rivage
pack-part-program = l'ensemble
pack-fact-operation = Conversion depuis latitude et longitude
pack-fact-accuracy = Son exactitude
pack-fact-tolerance = Lissage du trait de côte
pack-fact-stretch = Longueur d'une section
pack-fact-within = Plus grande distance au rivage
pack-fact-program = Programme
pack-fact-libraries = Bibliothèques
pack-fact-bandwidth-axes = Largeur de noyau, par direction
pack-fact-bandwidth-axes-value = { $east } d'est en ouest, { $north } du nord au sud
pack-fact-pilot = Largeur du noyau pilote
pack-fact-edge = Au bord du terrain
pack-edge-diggle = noyau de chaque découverte divisé par sa part sur le terrain
pack-edge-uniform = surface divisée par la part d'un noyau sur le terrain
pack-edge-none = rien
pack-fact-per = Densité rapportée
pack-per-land = à l'hectare de terre
pack-per-walked = à l'hectare prospecté
pack-per-covered = à l'hectare regardé
pack-fact-left-out-of-place = Hors de la surface : pièces hors de leur place
pack-fact-left-by-parish = Hors de la surface : pièces connues par leur seule commune
pack-fact-left-by-setting = Hors de la surface : pièces d'autres milieux
pack-fact-left-off-land = Hors de la surface : pièces en carrés hors de la terre
pack-fact-left-unwalked = Hors de la surface : pièces sur un terrain non connu comme prospecté
pack-fact-share = Part de la masse qu'elles tiennent
pack-fact-bound = Ce qui les borne
pack-bound-global = une répartition uniforme, tous les carrés à la fois
pack-bound-pointwise = une répartition uniforme, chaque carré pour lui-même
pack-fact-simulations = Répartitions simulées
pack-fact-level = Seuil
pack-fact-prominence = Moindre relief d'un sommet, de sa hauteur
pack-fact-prominence-density = Moindre relief d'un sommet, en pièces par hectare
pack-fact-smallest = Moins de pièces dans une zone donnée
pack-fact-resamples = Rééchantillonnages
pack-fact-seed = Graine des nombres au hasard
pack-word-piece = Pièce
pack-word-piece-meaning = un objet. Une notice peut en compter plusieurs semblables.
pack-word-record = Notice
pack-word-record-meaning = une ligne de l'inventaire : ce que quelqu'un a noté d'une découverte.
pack-word-square = Carré
pack-word-square-meaning = le carré de la grille convenue qui contient une découverte. L'endroit exact dans le carré n'est dit sur aucune carte ni dans aucun fichier.
pack-word-band = Tranche
pack-word-band-meaning = manière de dire le nombre de pièces d'un carré : 1–2, 3–9, 10–49, 50 et plus.
pack-word-in-place = À sa place, déplacée
pack-word-in-place-meaning = si une pièce était là où les gens de son temps l'ont laissée, autant que l'inventeur ait pu en juger. Le silex d'une plage y a le plus souvent été apporté.
pack-word-strength = Force des marques
pack-word-strength-meaning = avec quelle force les marques d'une pierre (talon, bulbe, nervures, retouche) parlent d'un travail humain, d'après les seules marques notées.
pack-word-bandwidth = Largeur de noyau
pack-word-bandwidth-meaning = jusqu'où la densité lisse : l'écart type du noyau. Plus elle est grande, moins on voit une découverte seule.
pack-word-concentration = Concentration
pack-word-concentration-meaning = une zone où les découvertes sont denses. Est-ce un épandage, un site ou le chemin d'un prospecteur attentif ? C'est aux gens d'en juger.
pack-sources-intro = Les numéros du texte mènent ici ; chaque source dit où elle est citée.
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
    }) sur { $read_text } lignes de l'inventaire ; { $aside_text } lignes mises de côté.
pack-submission-precision = Précision des lieux : { $precision }, dans la grille { $grid }. La référence nomme le carré ; l'est et le nord sont ceux de son angle sud-ouest. La précision détenue est le carré dans lequel la découverte a été notée.
pack-submission-operations = Les lieux ont été convertis par :
pack-submission-no-fieldwork = Aucune prospection n'est notée dans l'étude. L'absence de découvertes ailleurs ne dit rien.
pack-submission-too-many = Les { $n_text } premières découvertes sont imprimées ; finds.csv et finds.gpkg les contiennent toutes.
pack-sheet-heading-number = Numéro
pack-sheet-heading-place = Lieu
pack-sheet-heading-what = Objet
pack-sheet-heading-pieces = Pièces
pack-sheet-heading-marks = Marques
pack-sheet-heading-lay = Où elle se trouvait
pack-sheet-heading-measures = Matière et taille
pack-sheet-heading-people = Trouvée, vue, conservée
pack-sheet-heading-note = Note
pack-sheet-corner = { $east } E, { $north } N
pack-sheet-side = carré de { $value }
pack-sheet-held = détenue à { $value }
pack-sheet-uncertainty = ± { $value }
pack-sheet-as-written = { $term } (écrit : { $written })
pack-sheet-strength = force : { $value }
pack-sheet-length = { $value } mm
pack-sheet-weight = { $value } g
pack-sheet-looked-at-by = examinée par { $value }
pack-sheet-kept-at = conservée à { $value }
pack-sheet-permission = accord : { $value }
pack-sheet-operation = convertie par { $number }
