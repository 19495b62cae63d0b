table-shore-by-period = Pièces par kilomètre de rivage, par période
table-shore-by-class = Pièces par kilomètre de rivage, par classe
table-cells-along-the-shore = Position de chaque carré le long du rivage
shore-stretch = tronçon de rivage
shore-all = ensemble
shore-cell-square = carré
shore-cell-side = côté (m)
shore-cell-km-from = de (km)
shore-cell-km-to = à (km)
shore-cell-near = rivage au plus près (m)
shore-cell-far = rivage au plus loin (m)
shore-note-length = Le rivage mesure { $length } km une fois simplifié à { $tolerance } m. Une côte n’a pas une longueur unique : ne comparez que des longueurs mesurées avec la même tolérance.
shore-note-shared = Un carré occupe un intervalle le long du rivage ; ses pièces y sont réparties également.
shore-note-beyond = { $n ->
    [one] { $n_text } pièce se trouve à plus de { $within } m du rivage et n’est pas comptée.
   *[other] { $n_text } pièces se trouvent à plus de { $within } m du rivage et ne sont pas comptées.
}
shore-note-parish = { $n ->
    [one] { $n_text } pièce n’est placée que par sa commune et n’est pas comptée.
   *[other] { $n_text } pièces ne sont placées que par leur commune et ne sont pas comptées.
}
table-density-surface = La surface de densité
surface-what = mesure
surface-value = valeur
surface-bandwidth = largeur de noyau : écart type (m)
surface-bandwidth-east = largeur de noyau d’est en ouest (m)
surface-bandwidth-north = largeur de noyau du nord au sud (m)
surface-bandwidth-lean = corrélation du noyau entre est et nord
surface-method = choix de la largeur de noyau
surface-pilot = largeur du noyau pilote (m)
surface-narrowest = plus petite largeur d’un carré (m)
surface-widest = plus grande largeur d’un carré (m)
surface-edge = au bord du terrain
surface-edge-diggle = chaque carré est divisé par la part de son noyau sur le terrain : le compte des pièces est gardé
surface-edge-uniform = chaque lieu est divisé par la part d’un noyau sur le terrain : le compte des pièces peut changer
surface-edge-none = aucune correction
surface-pixel = côté d’un pixel (m)
surface-pieces = pièces portées par la surface
surface-peak = densité maximale (pièces par hectare)
surface-mean = densité moyenne à terre (pièces par hectare)
surface-mean-walked = densité moyenne du terrain prospecté (pièces par hectare prospecté)
surface-mean-covered = densité moyenne du terrain observé (pièces par hectare observé)
surface-hectares = terre couverte par la surface (ha)
surface-hectares-walked = terrain prospecté couvert par la surface (ha)
surface-hectares-covered = terrain observé couvert par la surface (ha)
surface-by-setting = pièces d’autres contextes, laissées de côté
surface-off-land = pièces de carrés entièrement hors de la terre, laissées de côté
surface-unwalked = pièces de carrés entièrement hors du terrain prospecté, laissées de côté
surface-out-of-place = pièces déplacées, laissées de côté
surface-by-parish = pièces placées par leur seule commune, laissées de côté
surface-note-from-bands = Faite des tranches de nombre des carrés et non des vrais nombres : chaque carré y vaut une estimation.
surface-note = Pièces par hectare de terre, et non de terrain prospecté : là où personne n’a cherché, la surface est basse faute de recherche.
surface-note-walked = Pièces par hectare de terrain prospecté. Le terrain non prospecté est hors de la surface.
surface-note-covered = Pièces par hectare observé : le terrain prospecté compte pour la part qui a été observée. Le terrain non prospecté est hors de la surface.
bandwidth-fixed-two = fixée dans le fichier d’étude, pour deux directions
bandwidth-plug-in = par substitution, une d’est en ouest et une du nord au sud (Wand et Jones 1994)
bandwidth-plug-in-full = par substitution, matrice pleine (Wand et Jones 1994 ; Duong et Hazelton 2003)
bandwidth-least-squares = validation croisée par moindres carrés (Rudemo 1982 ; Bowman 1984)
bandwidth-likelihood = validation croisée par vraisemblance (Loader 1999)
bandwidth-diggle = moindre erreur quadratique moyenne (Diggle 1985 ; Berman et Diggle 1989)
bandwidth-doubt-under-square = La largeur de noyau est inférieure au côté des carrés : la surface montre les carrés autant que les découvertes.
bandwidth-doubt-at-end = La largeur de noyau se trouve au bout de l’intervalle de recherche : les découvertes ne la fixent pas, choisissez-la vous-même.
bandwidth-doubt-too-few = Trop peu de découvertes sont distinctes pour le choix de largeur demandé : la règle empirique a été suivie.
density-doubt-settings-hidden = Ce destinataire ne voit pas les contextes : la surface n’a pu être limitée à ceux que nomme l’étude.
density-doubt-none-walked = Aucune découverte ne se trouve sur un terrain dont on sait qu’il a été prospecté : la surface est par hectare de terre.
density-doubt-cover = Une partie du terrain prospecté n’indique pas de part observée et compte comme entièrement observée.
bandwidth-fixed = fixée dans le fichier d’étude
bandwidth-rule = règle empirique (Scott 1992), jamais sous le côté des carrés
bandwidth-half = la moitié de celle de l’étude
bandwidth-double = le double de celle de l’étude
bandwidth-chosen = celle de l’étude : { $why }
bandwidths-title = Largeurs de noyau essayées
bandwidths-why = pourquoi elle est essayée
bandwidths-note = Un noyau plus large réunit les zones et abaisse les sommets ; un plus étroit les sépare et montre davantage le hasard. Aucune règle ne sait quelles zones comptent.
tables-title = Pièces : { $rows } par { $columns }
tables-class = classe
tables-period = période
tables-parish = commune
tables-strength = force des stigmates
tables-setting = milieu
tables-concentration = concentration
tables-richer-squares = carrés plus riches
tables-total = total
tables-elsewhere = ailleurs
tables-parish-unknown = commune inconnue
tables-not-shown = non montré
tables-out-of-place = déplacées
tables-note-area = Un carré à cheval sur plusieurs communes est réparti entre elles selon la surface, et les parts sont arrondies de façon à garder les totaux. Un petit nombre dans une commune peut n’être qu’une telle part.
tables-note-parish-only = { $n ->
    [one] { $n_text } pièce n’est placée que par sa commune.
   *[other] { $n_text } pièces ne sont placées que par leur commune.
}
tables-note-elsewhere = Une pièce est comptée ici quand son carré est tout entier dans le contour. Ailleurs : au-dehors, dans un carré qui chevauche un contour, placée par la seule commune, déplacée, ou d’un milieu laissé hors de la surface.
tables-note-prehistoric = { $n ->
    [one] { $n_text } pièce n’est datée que de la préhistoire, et n’est pas répartie entre les périodes.
   *[other] { $n_text } pièces ne sont datées que de la préhistoire, et ne sont pas réparties entre les périodes.
}
ladder-title = Carrés montrés moins finement que convenu
ladder-square = Carré
ladder-side = Côté
ladder-told = Comment ses découvertes sont données
ladder-as-one = en un seul carré
ladder-by-parish = par leur commune : { $parish }
ladder-squares = Carrés
ladder-listed = Le tableau ladder.csv, joint à ce rapport, donne chaque carré.
ladder-not-told = non données : trop peu de terrain
ladder-note = Tous les autres carrés sont montrés avec un côté de { $side }. Chacun laisse au moins { $hectares } ha de terrain. Cela a été fixé par les couches publiques et par l’accord, avant toute lecture de l’inventaire : rien n’y dit où sont les découvertes.
tables-note-undated = { $n ->
    [one] { $n_text } pièce n’a pas de date dans l’inventaire.
   *[other] { $n_text } pièces n’ont pas de date dans l’inventaire.
}
tables-note-out-of-place = { $n ->
    [one] { $n_text } pièce n’est plus à sa place (déplacée ou apportée) : comptée à part, et laissée hors des densités et des concentrations.
   *[other] { $n_text } pièces ne sont plus à leur place (déplacées ou apportées) : comptées à part, et laissées hors des densités et des concentrations.
}
tables-note-ranges = Là où deux nombres sont donnés, le chiffre se tient entre eux : donné exactement, il dirait combien de pièces tient un carré.
tables-note-from-bands = Les pièces de chaque partie du terrain sont des estimations, tirées des tranches de ses carrés et ramenées aux totaux : le vrai nombre de quelques carrés peut en être loin.
tables-note-withheld-places = Laissées hors de toute table et de toute carte, faute de pièces en un même lieu : les découvertes de { $places ->
    [one] { $places_text } lieu.
   *[other] { $places_text } lieux.
}
tables-note-withheld = Laissées hors de toute table et de toute carte, faute de nombre en un même lieu : { $n ->
    [one] { $n_text } pièce
   *[other] { $n_text } pièces
} dans { $places ->
    [one] { $places_text } lieu.
   *[other] { $places_text } lieux.
}
shore-missing = l’étude n’a pas de rivage public le long duquel mesurer
    .hint = Ajoutez une couche de lignes à l’étude : shore = { "{" } file = "ground/shore.geojson" { "}" } sous [ground].
shore-too-short = le rivage est trop court pour y mesurer
    .hint = Vérifiez la couche du rivage, ou réduisez simplify sous [shore].
shore-note-others = { $n ->
    [one] { $n_text } autre ligne de la couche du rivage ne rejoint pas celle-ci, et n’est pas mesurée.
   *[other] { $n_text } autres lignes de la couche du rivage ne rejoignent pas celle-ci, et ne sont pas mesurées.
}

## Concentrations
patches-title-concentration = Concentrations
patches-title-richer-squares = Carrés plus riches
patches-hectares = hectares
patches-pieces = pièces
patches-may-hold = pièces dans de plus grands carrés qui la recoupent
patches-per-hectare = pièces par hectare
patches-peak = densité maximale de la surface (pièces par hectare)
patches-firm = solidité (part des rééchantillonnages où elle se retrouve)
patches-p-global = p, tous les carrés à la fois
patches-p-pointwise = p, son meilleur carré pris seul
patches-by-share = Ce sont les carrés de plus forte densité qui portent ensemble { $share } % de la densité de toute la surface.
patches-by-envelope = Ce sont les carrés où les pièces sont plus denses que ne le donneraient les mêmes enregistrements répartis au hasard et uniformément sur { $over } ({ $simulations_text } simulations, seuil { $level }, tous les carrés à la fois). Pour l’ensemble des découvertes : p = { $p }. Graine des nombres aléatoires : { $seed }.
patches-by-pointwise-envelope = Ce sont les carrés où les pièces sont plus denses que ne le donneraient les mêmes enregistrements répartis au hasard et uniformément sur { $over } ({ $simulations_text } simulations, seuil { $level }, chaque carré pris seul) : sur un grand nombre de carrés, quelques-uns ressortent par le seul hasard. Pour l’ensemble des découvertes : p = { $p }. Graine des nombres aléatoires : { $seed }.
patches-over-walked = le terrain prospecté
patches-over-land = la terre ferme
patches-firm-note = Solidité : part des { $n_text } rééchantillonnages des enregistrements où l’on retrouve une concentration dont au moins la moitié des carrés sont communs.
patches-no-boundary = Un contour suit le bord des carrés et n’est pas la limite d’un site.
analyse-no-ground-for-envelope = il n’y a pas de terrain sur lequel répartir les découvertes au hasard
    .hint = Donnez une couche land, ou une couche walked publique, dans [ground] ; ou écrivez bound = "share" dans [concentrations].
