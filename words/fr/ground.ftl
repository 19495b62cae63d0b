ground-no-file = il n’y a pas de tel fichier pour la couche « { $layer } »
    .hint = Les chemins partent du dossier du fichier d’étude. Vérifiez l’orthographe, ou retirez la couche de [ground].
ground-not-a-file = c’est un dossier, non un fichier
    .hint = Nommez le fichier lui-même : le .shp d’un shapefile, le .gpkg, le .geojson.
ground-format = le fichier ne peut être lu comme une couche
    .hint = Formats lus : { $formats }. Un shapefile veut ses fichiers .shx et .dbf à côté de lui.
ground-no-layer = le fichier n’a pas de couche nommée « { $name } »
    .hint = Ses couches : { $known }.
ground-which-layer = le fichier contient plusieurs couches
    .hint = Dites laquelle, par layer = "…". Ses couches : { $known }.
ground-which-name = on ne voit pas quel attribut nomme la couche « { $layer } »
    .hint = Dites lequel, par name = "…". Attributs de la couche : { $known }.
ground-no-attribute = la couche n’a pas d’attribut nommé « { $name } »
    .hint = Ses attributs : { $known }.
ground-no-attribute-near = la couche n’a pas d’attribut nommé « { $name } » ; vouliez-vous dire « { $nearest } » ?
    .hint = Ses attributs : { $known }.
ground-cover = « { $text } » n’est pas une part de terrain
    .hint = Écrivez un nombre de 0 à 1, ou un pourcentage : 0.2 ou 20%.
ground-shape = cette forme est d’un genre qui ne peut servir
    .hint = Points, lignes et polygones se lisent. Convertissez d’abord les courbes et les surfaces.
ground-not-finite = un sommet de cette forme n’a pas de place dans le quadrillage de travail
    .hint = Vérifiez la forme, et le système de coordonnées indiqué par la couche.
ground-no-system = la couche « { $layer } » ne dit pas dans quel système de coordonnées elle est
    .hint = Indiquez-le dans le fichier d’étude, par system = "lambert-93" ou system = "EPSG:…". Un shapefile l’indique dans son fichier .prj.
ground-not-degrees = la couche « { $layer } » se dit en degrés, et ses nombres ne peuvent être des degrés
    .hint = Un GeoJSON est en degrés WGS84 s’il ne dit rien d’autre. Si ce fichier est dans un quadrillage, dites lequel par system = "lambert-93" ou system = "EPSG:…".
ground-unmendable = un polygone se croise lui-même et ne peut être réparé
    .hint = Regardez la couche dans un logiciel de cartographie et redessinez le polygone.
ground-empty = la couche « { $layer } » est vide
    .hint = Mettez-y des formes, ou retirez-la de [ground].
ground-no-parcels = l’accord demande un nombre de lieux, et aucune couche publique ne les compte
    .hint = Donnez une couche de parcelles, parcels = {"{"} file = "…", public = true {"}"}, ou retirez smallest_places.
ground-too-little = il y a moins de terrain que l’accord ne promet d’en laisser : { $hectares } ha
    .hint = Convenez d’un "smallest_area" (ou d’un "smallest_places") plus petit, ou vérifiez que la couche des terres est entière.
    .hint = Mettez-y des formes, ou retirez-la de [ground].
ground-wrong-shapes = la couche « { $layer } » n’a pas les formes voulues (voulu : { $wanted } ; trouvé : { $held })
    .hint = « polygons » : polygones ; « lines » : lignes ; « points » : points. Peut-être s’agit-il d’une autre couche ou d’un autre fichier.
ground-unnamed = une commune n’a pas de nom
    .hint = Donnez un nom à chaque commune dans la couche.
ground-relief-nowhere = l’image matricielle ne dit pas où elle se place
    .hint = Une image veut un fichier de calage à côté d’elle ; un GeoTIFF porte sa position.
ground-relief-turned = l’image matricielle est tournée ou en miroir
    .hint = Redressez-la, nord en haut, et relisez-la.
ground-relief-picture = l’image a { $bands } canaux, et des altitudes n’en ont qu’un
    .hint = Une image en couleurs ne contient pas d’altitudes. Prenez le modèle dont elle est tirée.
ground-relief-away = l’image matricielle n’atteint pas le terrain de l’étude
    .hint = Vérifiez le fichier, et le système de coordonnées qu’il indique.
ground-relief-broken = les altitudes ne peuvent être lues
    .hint = Le fichier est peut-être tronqué : reprenez-le à la source.
ground-credit-licence = { $whom } (licence { $licence })
