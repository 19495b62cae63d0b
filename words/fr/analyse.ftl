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
shore-note-length = Le rivage mesure { $length } km une fois simplifié à { $tolerance } m. Une côte n'a pas une longueur unique : ne comparez que des longueurs mesurées avec la même tolérance.
shore-note-shared = Un carré occupe un intervalle le long du rivage ; ses pièces y sont réparties également.
shore-note-beyond = { $n ->
    [one] { $n_text } pièce se trouve à plus de { $within } m du rivage et n'est pas comptée.
   *[other] { $n_text } pièces se trouvent à plus de { $within } m du rivage et ne sont pas comptées.
}
shore-note-parish = { $n ->
    [one] { $n_text } pièce n'est placée que par sa commune et n'est pas comptée.
   *[other] { $n_text } pièces ne sont placées que par leur commune et ne sont pas comptées.
}
table-density-surface = La surface de densité
surface-what = mesure
surface-value = valeur
surface-bandwidth = largeur de noyau : écart type (m)
surface-method = choix de la largeur de noyau
surface-pixel = côté d'un pixel (m)
surface-pieces = pièces portées par la surface
surface-peak = densité maximale (pièces par hectare)
surface-mean = densité moyenne à terre (pièces par hectare)
surface-hectares = terre couverte par la surface (ha)
surface-out-of-place = pièces déplacées, laissées de côté
surface-by-parish = pièces placées par leur seule commune, laissées de côté
surface-note = Pièces par hectare de terre, et non de terrain prospecté : là où personne n'a cherché, la surface est basse faute de recherche.
