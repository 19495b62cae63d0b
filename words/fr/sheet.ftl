# Les cartes.
sheet-kind-of-map-finds-by-cell = Pièces par carré
sheet-kind-of-map-finds-by-parish = Pièces par commune
sheet-kind-of-map-classes-and-periods = Classes et périodes
sheet-kind-of-map-density = Densité des pièces
sheet-kind-of-map-concentrations = Là où les pièces abondent
sheet-only = { $kind } : { $only }

# Au-dessus de la carte.
sheet-not-for-publication = Ne pas publier
sheet-not-for-publication-for = Ne pas publier · réservé à { $recipient }
sheet-cells-detail = Chaque carré est teinté selon le nombre de pièces qui en viennent, en quatre tranches.
sheet-kind-of-map-ladder = Finesse avec laquelle les lieux peuvent être montrés
sheet-ladder-detail = Chaque partie du terrain est teintée selon le carré dans lequel une découverte y serait montrée. Les couches publiques et l’accord l’ont fixé avant toute lecture de l’inventaire : rien n’y dit où sont les découvertes.
sheet-ladder-caution = Les carrés s’agrandissent là où un plus petit laisserait trop peu de terrain à une découverte, ou là où l’accord le demande. Une découverte notée plus grossièrement est montrée dans un carré plus grand.
sheet-legend-ladder = Les découvertes sont montrées par
sheet-legend-ladder-square = carrés de { $side }
sheet-legend-ladder-square-agreed = carrés de { $side }, comme convenu
sheet-legend-ladder-more = carrés de { $side } et plus
sheet-legend-ladder-parish = commune seule
sheet-legend-ladder-nowhere = non montrées : trop peu de terrain
sheet-parishes-detail = Chaque commune est teintée selon le nombre de pièces qui en viennent ; ce nombre est imprimé.
sheet-symbols-detail = Dans chaque carré de { $side } : un signe par classe et par période, plus grand s’il y a plus de pièces. La place du signe dans le carré ne dit rien.
sheet-symbols-detail-joined = Les carrés de { $finest } sont réunis en carrés de { $side } pour laisser place aux signes. La place du signe dans le carré ne dit rien.
sheet-density-detail = Pièces par hectare, lissées par un noyau gaussien d’écart-type (largeur) { $bandwidth } m ({ $method }).
sheet-density-detail-walked = Pièces par hectare prospecté, lissées par un noyau gaussien d’écart-type (largeur) { $bandwidth } m ({ $method }).
sheet-density-detail-covered = Pièces par hectare observé, lissées par un noyau gaussien d’écart-type (largeur) { $bandwidth } m ({ $method }).
sheet-concentrations-detail = Les contours réunissent { $share } % de la densité, là où elle est la plus forte. Noyau gaussien, écart-type (largeur) { $bandwidth } m.
sheet-richer-squares-detail = Carrés plus riches : ceux qui réunissent { $share } % de la densité, là où elle est la plus forte. Noyau gaussien, écart-type (largeur) { $bandwidth } m.
sheet-concentrations-detail-envelope = Les contours réunissent les carrés où les pièces sont plus denses que ne le donneraient les mêmes enregistrements répartis uniformément sur { $over } ({ $simulations_text } simulations, { $level } %, { $at_once }). Noyau gaussien, écart-type (largeur) { $bandwidth } m.
sheet-richer-squares-detail-envelope = Carrés plus riches : ceux où les pièces sont plus denses que ne le donneraient les mêmes enregistrements répartis uniformément sur { $over } ({ $simulations_text } simulations, { $level } %, { $at_once }). Noyau gaussien, écart-type (largeur) { $bandwidth } m.
sheet-all-squares = tous les carrés à la fois
sheet-each-square = chaque carré pris seul

# Légendes.
sheet-heading-legend = Légende
sheet-legend-pieces-in = Pièces par carré de { $side }
sheet-legend-unwalked = Non prospecté : on ne sait rien
sheet-legend-by-parish = Pièces par commune
sheet-legend-by-parish-estimated = Pièces par commune, estimées
sheet-legend-none = Aucune signalée
sheet-legend-density = Pièces par hectare
sheet-legend-density-walked = Pièces par hectare prospecté
sheet-legend-density-covered = Pièces par hectare observé
sheet-legend-square-with-finds = Carré avec des pièces
sheet-legend-larger-square-with-finds = Carré plus grand avec des pièces
sheet-legend-larger-square = Carré plus grand : les signes d’un de ses coins valent pour le tout
sheet-legend-concentrations = Concentration
sheet-legend-richer-squares = Carrés plus riches
sheet-legend-one-concentration = { $n ->
    [one] { $n_text } pièce, { $hectares } ha
   *[other] { $n_text } pièces, { $hectares } ha
}
sheet-legend-shape = Classe
sheet-legend-colour = Période
sheet-legend-size = Taille : pièces par carré de { $side }
sheet-from-to = { $from } à { $to }
sheet-and-more = { $from } et plus
sheet-no-finds = Aucune pièce à montrer.
sheet-nothing = Rien à montrer : l’étude ne donne pas de fond de carte, et aucune pièce n’a de carré.
sheet-no-parishes = L’étude ne donne pas de communes.
sheet-no-concentrations = Aucune concentration n’a été trouvée.
sheet-no-richer-squares = Aucun carré ne se détache.

sheet-kind-dagger = Poignard
sheet-kind-axehead = Hache, herminette ou pic
sheet-kind-arrowhead = Armature de flèche
sheet-kind-microlith = Microlithe ou microburin
sheet-kind-scraper = Grattoir
sheet-kind-tool = Autre outil
sheet-kind-core = Nucléus
sheet-kind-blade = Lame ou lamelle
sheet-kind-waste = Éclat, esquille ou débris
sheet-kind-other = Pierre taillée, sans classe

sheet-era-palaeolithic = Paléolithique
sheet-era-mesolithic = Mésolithique
sheet-era-mesolithic-early-neolithic = Mésolithique ou Néolithique ancien
sheet-era-early-neolithic = Néolithique ancien
sheet-era-neolithic = Néolithique
sheet-era-late-neolithic-early-bronze-age = Néolithique final à Bronze ancien
sheet-era-bronze-age = Âge du Bronze
sheet-era-undated = Non daté, ou préhistorique seulement

# Lignes du fond de carte.
sheet-legend-parish-line = Limite de commune
sheet-legend-road = Route
sheet-legend-stream = Ruisseau

# Échelle, nord, grille.
sheet-km = { $n } km
sheet-m = { $n } m
sheet-scale = Échelle 1:{ $scale }
sheet-grid-north-arrow = Nord du quadrillage
sheet-true-north-star-west = L’étoile marque le nord géographique, à { $angle }° à l’ouest du nord du quadrillage.
sheet-true-north-star-east = L’étoile marque le nord géographique, à { $angle }° à l’est du nord du quadrillage.
sheet-true-north-west = Le nord géographique est à { $angle }° à l’ouest du nord du quadrillage.
sheet-true-north-east = Le nord géographique est à { $angle }° à l’est du nord du quadrillage.
sheet-norths-agree = Ici, le nord géographique est celui du quadrillage.
sheet-heading-around = Situation
sheet-around = Le carton couvre { $km } km de large ; son rectangle est cette carte.
sheet-grid-east = { $km } km E
sheet-grid-north = { $km } km N
sheet-grid-british = British National Grid
sheet-grid-lambert-93 = quadrillage Lambert-93
sheet-grid-other = quadrillage { $system }
sheet-datum-british = Quadrillage : British National Grid, kilomètres à l’est et au nord de son origine (datum OSGB36, par OSTN15).
sheet-datum-lambert-93 = Quadrillage : Lambert-93, kilomètres à l’est et au nord de son origine (datum RGF93).
sheet-datum-other = Quadrillage : { $system }, kilomètres à l’est et au nord de son origine.

# Le cartouche.
sheet-heading-precision = Précision
sheet-precision-square = Convenu pour les lieux : carrés de { $side } ({ $grid }). Rien de plus fin n’est donné.
sheet-precision-parish = Les lieux sont montrés par commune seulement, comme convenu.
sheet-precision-stricter = Certaines pièces sont montrées moins finement.
sheet-heading-counts = Nombres
sheet-shown = { $n ->
    [0] Aucune pièce n’est montrée.
    [one] Une pièce est montrée.
   *[other] { $n_text } pièces sont montrées.
}
sheet-by-parish-only = { $n ->
    [one] Une autre, connue par sa commune seulement, n’est dans aucun carré.
   *[other] { $n_text } autres, connues par leur commune seulement, ne sont dans aucun carré.
}
sheet-density-left-setting = { $n ->
    [one] Une pièce d’un autre contexte est laissée hors de la densité.
   *[other] { $n_text } pièces d’autres contextes sont laissées hors de la densité.
}
sheet-density-left-off-land = { $n ->
    [one] Une pièce dont le carré est entièrement hors de la terre est laissée hors de la densité.
   *[other] { $n_text } pièces dont les carrés sont entièrement hors de la terre sont laissées hors de la densité.
}
sheet-density-left-unwalked = { $n ->
    [one] Une pièce dont le carré est entièrement hors du terrain prospecté est laissée hors de la densité.
   *[other] { $n_text } pièces dont les carrés sont entièrement hors du terrain prospecté sont laissées hors de la densité.
}
sheet-out-of-place = { $n ->
    [one] Une pièce déplacée ou apportée est laissée hors de la densité.
   *[other] { $n_text } pièces déplacées ou apportées sont laissées hors de la densité.
}
sheet-apart = { $n ->
    [one] Une pièce de l’ensemble est déplacée ou apportée. Elle est comptée ici avec les autres ; les tableaux la comptent à part.
   *[other] { $n_text } pièces de l’ensemble sont déplacées ou apportées. Elles sont comptées ici avec les autres ; les tableaux les comptent à part.
}
sheet-withheld = { $n ->
    [one] Une pièce n’est pas montrée : son carré ou sa commune en a trop peu.
   *[other] { $n_text } pièces ne sont pas montrées : leurs carrés ou communes en ont trop peu.
}
sheet-withheld-places = { $n ->
    [one] Les découvertes d’un carré ou d’une commune ne sont pas montrées : il y en a trop peu.
   *[other] Les découvertes de { $n_text } carrés ou communes ne sont pas montrées : il y en a trop peu.
}
sheet-from-bands = Les nombres de pièces par partie du terrain (commune, concentration, tronçon de rivage) sont des estimations, tirées des tranches des carrés.
sheet-from-bands-ranges = Là où deux nombres figurent, la valeur est entre les deux. Les nombres de pièces par partie du terrain (commune, concentration, tronçon de rivage) sont des estimations, tirées des tranches des carrés.
sheet-doubtful = { $n ->
    [one] Une pièce de l’ensemble est douteuse : ses stigmates de taille sont faibles.
   *[other] { $n_text } pièces de l’ensemble sont douteuses : leurs stigmates de taille sont faibles.
}
sheet-doubtful-besides = { $n ->
    [one] En plus des pièces déplacées, une pièce de l’ensemble est douteuse : ses stigmates de taille sont faibles.
   *[other] En plus des pièces déplacées, { $n_text } pièces de l’ensemble sont douteuses : leurs stigmates de taille sont faibles.
}
sheet-collected = Ramassage : { $years }.
sheet-walked = Terrain prospecté : { $hectares } ha.
sheet-walked-cover = Terrain prospecté : { $hectares } ha, observés à { $share } %.
sheet-set-aside = { $n ->
    [one] Une des { $read_text } lignes de l’inventaire n’a pu servir et est écartée.
   *[other] { $n_text } des { $read_text } lignes de l’inventaire n’ont pu servir et sont écartées.
}
sheet-heading-cautions = À lire avec prudence
sheet-no-symbol = L’absence de signe ou de teinte n’est pas l’absence de pièces : le terrain a pu ne pas être prospecté.
sheet-permission = L’accès aux terrains demande l’accord du propriétaire.
sheet-record-office = Consultez le service archéologique compétent avant toute prospection.
sheet-parishes-caution = Les communes n’ont ni la même étendue, ni la même part prospectée.
sheet-parishes-elsewhere = { $n ->
    [one] Une pièce relève d’une commune que cette carte ne montre pas.
   *[other] { $n_text } pièces relèvent de communes que cette carte ne montre pas.
}
sheet-symbols-caution = Un signe vaut pour son carré entier, jamais pour un lieu.
sheet-symbols-left-out = { $n ->
    [one] Un signe n’a pas trouvé place dans son carré.
   *[other] { $n_text } signes n’ont pas trouvé place dans leurs carrés.
}
sheet-symbols-in-larger = { $n ->
    [one] Une pièce, dans un carré plus grand encore, n’est pas dessinée.
   *[other] { $n_text } pièces, dans des carrés plus grands encore, ne sont pas dessinées.
}
sheet-density-caution = Calculée à partir de carrés entiers, non des lieux de découverte ; plus on prospecte, plus on trouve.
sheet-legend-firm = { "" }, { $firm } %
sheet-firm-caution = Le pourcentage dit la solidité : la part des { $n_text } rééchantillonnages où la concentration se retrouve.
sheet-kind-of-map-bandwidths = La densité pour plusieurs largeurs de noyau
sheet-bandwidths-detail = Les mêmes pièces, lissées par des noyaux gaussiens de plusieurs écarts-types (largeurs), du plus étroit au plus large. Toutes les cartes ont la même échelle de teintes.
sheet-bandwidth = Largeur { $bandwidth } m
sheet-bandwidths-chosen = La largeur de cette étude
sheet-bandwidths-other = Une autre largeur
sheet-bandwidths-caution = Un noyau large réunit les zones, un noyau étroit montre davantage le hasard. Ce qui demeure dans toutes est le plus solide.
sheet-bandwidths-one = Largeur { $bandwidth } m ({ $why }) : jusqu’à { $peak } pièces par hectare.
sheet-no-site-boundary = Les contours suivent les carrés et ne sont pas des limites de site.
sheet-contours-no-boundary = Les courbes ne sont pas des limites de site.
sheet-names-left-out = { $n ->
    [one] Un nom n’a pas trouvé place sur la carte.
   *[other] { $n_text } noms n’ont pas trouvé place sur la carte.
}
sheet-notes-left-out = Faute de place, certaines notes manquent ici.
sheet-heading-sources = Sources
sheet-credits = Fond : { $credits }.
sheet-boundaries = Limites : { $kind }.
sheet-boundaries-dated = Limites de { $date }.
sheet-boundaries-kind-dated = Limites : { $kind }, { $date }.
sheet-compiler = Établi par { $name }.
sheet-edition = Édition { $edition }.
sheet-edition-named = { $edition }.
sheet-dated = { $date }.
sheet-made-with = Dessiné avec strew.
sheet-day = { $first ->
    [yes] 1er { $month } { $year }
   *[other] { $day } { $month } { $year }
}
sheet-month = { $month ->
    [1] janvier
    [2] février
    [3] mars
    [4] avril
    [5] mai
    [6] juin
    [7] juillet
    [8] août
    [9] septembre
    [10] octobre
    [11] novembre
   *[12] décembre
}

# Petites cartes côte à côte.
sheet-number-of = { $kind } (feuille { $n_text } sur { $of_text })
sheet-each-period = { $kind }, période par période
sheet-each-class = { $kind }, classe par classe
sheet-each-class-and-period = { $kind }, par classe (en lignes) et par période (en colonnes)
sheet-each-detail = Même terrain, même échelle et même légende pour toutes les cartes.
sheet-squares-joined = Les carrés de { $finest } sont réunis en carrés de { $side } pour rester visibles à cette taille.
sheet-squares-joined-further = Ceux de { $finest } n’y entrent pas et sont réunis en carrés de { $side }.
sheet-each-groups = Chaque objet figure sur une seule carte. S’il n’y a pas de carte pour une classe ou une période, c’est qu’il n’y a rien à en montrer.
sheet-each-parish-numbers = Un nombre qui ne tient pas dans sa commune est omis ; la teinte reste.
sheet-panel-pieces = { $n ->
    [0] aucune pièce
    [one] { $n_text } pièce
   *[other] { $n_text } pièces
}
sheet-panel-apart = { $n ->
    [one] { $pieces } ({ $n_text } déplacée)
   *[other] { $pieces } ({ $n_text } déplacées)
}
sheet-panel-by-parish = { $pieces }, et { $n_text } par commune
sheet-panel-told = { $name } : { $pieces }.
sheet-pair-registers = { $kind }, côte à côte
sheet-pair-years = { $kind }, avant { $year } et depuis { $year }
sheet-pair-before = Avant { $year }
sheet-pair-from = Depuis { $year }
sheet-pair-first = Le premier inventaire
sheet-pair-second = Le second inventaire
sheet-pair-detail = Même terrain, même échelle et même légende pour les deux cartes.
sheet-pair-registers-caution = D’un inventaire à l’autre, les prospecteurs, les terrains, le nombre de passages et ce qui a été gardé diffèrent : un carré présent sur une seule carte n’était pas forcément vide pour l’autre.
sheet-pair-years-caution = D’une période de collecte à l’autre, les prospecteurs, les terrains, le nombre de passages et ce qui a été gardé diffèrent : un carré présent sur une seule carte n’était pas forcément vide pour l’autre.
sheet-pair-squares = Parmi les carrés dessinés, avec des pièces sur les deux cartes : { $both } ; sur la première seulement : { $first } ; sur la seconde seulement : { $second }.
sheet-pair-no-year = { $n ->
    [one] { $n_text } pièce n’a pas d’année de découverte lisible, ou en a des deux côtés, et ne figure sur aucune des deux cartes.
   *[other] { $n_text } pièces n’ont pas d’année de découverte lisible, ou en ont des deux côtés, et ne figurent sur aucune des deux cartes.
}
sheet-legend-classes-left-out = { $n ->
    [one] Une autre classe est comptée, non dessinée.
   *[other] { $n_text } autres classes sont comptées, non dessinées.
}
sheet-legend-periods-left-out = { $n ->
    [one] Une autre période est comptée, non dessinée.
   *[other] { $n_text } autres périodes sont comptées, non dessinées.
}
sheet-legend-symbols-left-out = « +3 » : trois signes n’ont pas trouvé place dans ce carré.
sheet-contours-every = Courbes de niveau tous les { $interval } m.

# Le rivage.
sheet-shore-title = Pièces le long du rivage
sheet-shore-detail = Pièces par kilomètre de rivage, par période, par tronçons de { $stretch }. Une pièce dont le carré couvre plusieurs tronçons est partagée entre eux.
sheet-shore-along = Kilomètres le long du rivage
sheet-shore-per-km = Pièces par km
sheet-shore-all = Toutes périodes ensemble
sheet-shore-length = Le rivage mesure { $km } km une fois simplifié à { $tolerance } près. Un tracé plus fin serait plus long : une côte n’a pas une seule longueur.
sheet-shore-closed = La ligne se referme : sa fin est son début.
sheet-shore-others = { $n ->
    [one] Une ligne de rivage qui ne rejoint pas celle-ci (îlot, lagune) est laissée de côté.
   *[other] { $n_text } lignes de rivage qui ne rejoignent pas celle-ci (îlots, lagunes) sont laissées de côté.
}
sheet-shore-beyond = { $n ->
    [one] Une pièce, à plus de { $within } du rivage, est laissée de côté.
   *[other] { $n_text } pièces, à plus de { $within } du rivage, sont laissées de côté.
}

# Erreurs.
sheet-colour = « { $text } » n’est pas une couleur
    .hint = Écrivez # et six chiffres hexadécimaux : "#AD4F21".
sheet-style-unknown = il n’y a pas de style nommé « { $name } »
    .hint = Styles : { $known }.
sheet-style-broken = le style ne peut être lu (le lecteur de TOML dit, en anglais : « { $why } »)
    .hint = C’est une faute du programme : signalez-la.
sheet-paper-unknown = « { $name } » n’est pas un format de papier
    .hint = Écrivez a2, a3, a4, a5, figure-wide, figure-tall, figure-column, ou une largeur et une hauteur en millimètres, de 60 à 1200 : "170x105".
sheet-paper-too-small = { $width } × { $height } mm est trop petit pour cette carte et sa légende
    .hint = Prenez un papier plus grand, ou une seule classe ou période, dont la légende est plus courte.
sheet-all-together = la carte { $map } montre toutes les classes et périodes ensemble
    .hint = Laissez la classe et la période, ou dessinez finds-by-cell ou classes-and-periods.
sheet-no-density = il n’y a pas de densité à dessiner
    .hint = L’accord doit donner "density" ou "concentrations", et une pièce au moins doit avoir un carré.
sheet-dpi = { $value } points par pouce : hors limites
    .hint = Choisissez de 72 à 1200.
sheet-picture = l’image n’a pu être faite : { $why }
    .hint = Essayez le SVG, et signalez cette faute du programme.
sheet-parish-map = Pièces à { $parish }
sheet-parish-map-shows = Carte de { $parish }, ses alentours estompés : carrés teintés selon le nombre de pièces, sous les routes, les ruisseaux et la limite de la commune.
sheet-not-side-by-side = la carte { $map } ne peut pas être dessinée en petites cartes côte à côte
    .hint = Dessinez finds-by-cell, classes-and-periods ou finds-by-parish ; pour deux inventaires, density aussi.
sheet-nothing-side-by-side = il n’y a rien à dessiner côte à côte
    .hint = N’indiquez ni classe ni période, ou voyez ce que « strew check » écarte.
sheet-no-ladder = La carte de la finesse des lieux demande du terrain montré moins finement que convenu.
    .hint = Tout le terrain de ce destinataire est montré comme convenu : il n’y a rien à dessiner.
