units-length = « { $text } » n’est pas une longueur
    .hint = Écrivez un nombre et une unité : "100 m" ou "1 km".
units-area = « { $text } » n’est pas une surface
    .hint = Écrivez un nombre et une unité : "0.25 km2", "4 ha" ou "900 m2".
units-date = « { $text } » n’est pas une date
    .hint = Écrivez année, mois et jour : 2026-10-01.
study-precision = « { $text } » n’est pas une précision
    .hint = Écrivez le côté d’un carré (1, 2 ou 5 fois une puissance de dix : "10 m", "100 m", "1 km", "2 km") ou "parish" (la commune).
study-unreadable = le fichier d’étude ne peut être lu : { $why }
    .hint = Vérifiez le chemin. « strew new DOSSIER --register FICHIER » écrit un fichier d’étude de départ.
study-no-audience = l’étude n’a pas d’accord nommé « { $name } »
    .hint = Ses accords : { $known }. Ajoutez une section [agreement.{ $name }] avec ce qui a été convenu.
study-unknown-key = « { $key } » n’est pas connu ici
    .hint = Connus ici : { $known }.
study-unknown-key-near = « { $key } » n’est pas connu ici ; vouliez-vous dire « { $nearest } » ?
    .hint = Remplacez-le par « { $nearest } » ou supprimez-le. docs/study-file.md donne toutes les clés.
study-unknown-word = « { $key } » n’est pas connu ici ; vouliez-vous dire « { $nearest } » ?
    .hint = docs/study-file.md donne toutes les clés et tous les mots.
study-missing-key = « { $key } » manque
    .hint = Ajoutez-le. docs/study-file.md montre un fichier d’étude entier.
study-toml = le fichier ne se lit pas comme un fichier d’étude (le lecteur de TOML dit, en anglais : « { $why } »)
    .hint = Regardez cette ligne : un guillemet, un crochet ou un signe égal manque peut-être.
study-value = { $why }
    .hint = docs/study-file.md dit ce que cette clé peut contenir.
study-wants-list = « { $key } » contient une liste, et { $value } est une seule valeur
    .hint = Mettez-la entre crochets : { $key } = [{ $value }].
study-wants-text = « { $key } » contient des mots, et { $value } n’a pas de guillemets
    .hint = Mettez des guillemets droits : { $key } = "{ $value }".
study-wants-number = « { $key } » contient un nombre, et { $value } n’en est pas un
    .hint = Écrivez le nombre sans guillemets ni unité.
study-wants-yes-no = « { $key } » contient true ou false, et non { $value }
    .hint = Écrivez { $key } = true ou { $key } = false, sans guillemets.
study-wants-table = « { $key } » contient plusieurs valeurs, et { $value } n’en est qu’une
    .hint = Écrivez { $key } = {"{"} file = { $value } {"}"}. docs/study-file.md donne la suite.
study-curly-quotes = cette ligne a des guillemets courbes
    .hint = Utilisez les droits : "comme ceci". Un traitement de texte les courbe, un éditeur de texte brut non.
study-slashed-date = { $value } n’est pas une date telle qu’on l’écrit ici
    .hint = Année, mois, jour, avec des traits d’union et sans guillemets : 2026-10-01.
study-no-register = aucun fichier d’inventaire n’est nommé
    .hint = Écrivez files = ["finds.csv"] sous [register].
study-grid-in-degrees = « { $grid } » est en degrés, et tout se mesure ici en mètres
    .hint = Choisissez un quadrillage en mètres : british-grid, lambert-93 ou un code EPSG projeté.
study-share = { $value } n’est pas une part
    .hint = Écrivez un nombre entre 0 et 1, par exemple 0.5.
study-times = { $value } n’est pas un nombre de tirages
    .hint = Écrivez un nombre entier de { $least } à { $most }.
study-level = { $value } n’est pas un seuil de signification
    .hint = Écrivez un nombre positif, au plus 0.5, par exemple 0.05.
study-level-too-fine = { $simulations } simulations ne permettent pas d’atteindre le seuil de { $value }
    .hint = Le plus petit p vaut 1 / (1 + simulations) : simulez davantage ou relevez le seuil.
study-prominence = « { $text } » n’est pas une proéminence
    .hint = Écrivez une part du sommet entre 0 et 1 (0.25), ou un nombre de pièces par hectare ("2 par hectare").
study-dpi = { $value } points par pouce : hors limites
    .hint = Écrivez un nombre entier de 72 à 1200.
study-bandwidth = « { $text } » n’est pas une largeur de noyau
    .hint = Écrivez une longueur ("250 m"), deux longueurs (["400 m", "200 m"]), ou "rule", "plug-in", "plug-in-full", "least-squares", "likelihood" ou "diggle".
study-edge-twice = edge et edge_correction disent deux fois la même chose
    .hint = Gardez edge = "diggle", "uniform" ou "none", et retirez edge_correction.
study-bearing-alone = une orientation demande deux largeurs de noyau
    .hint = Écrivez bandwidth = ["400 m", "200 m"] : la première dans l’orientation, la seconde en travers.
study-bearing = { $value } n’est pas une orientation
    .hint = Écrivez des degrés depuis le nord du quadrillage, dans le sens des aiguilles d’une montre : un nombre de -360 à 360.
study-pilot-alone = une largeur pilote ne sert qu’à une densité adaptative
    .hint = Ajoutez adaptive = true, ou retirez pilot.
study-adaptive-one-way = une densité adaptative a une seule largeur pour toutes les directions
    .hint = Donnez une seule longueur pour bandwidth, ou un choix autre que "plug-in-full", ou retirez adaptive.
study-audience-name = « { $name } » ne peut nommer un destinataire
    .hint = Lettres, chiffres et traits d’union seulement : le nom devient un dossier.
study-stricter-hidden = une règle plus stricte porte sur « { $attribute } », que ce destinataire ne voit pas
    .hint = Un carré plus grand dirait ce qui est caché. Montrez « { $attribute } », ou donnez à la règle la précision "parish".
study-stricter-one-key = chaque règle plus stricte porte sur une seule clé : class, period, setting ou near
    .hint = Écrivez une section [[…stricter]] pour chacune.
study-no-audience-near = l’étude n’a pas d’accord nommé « { $name } » : est-ce « { $nearest } » ?
    .hint = Écrivez le nom comme dans [agreement.…] du fichier d’étude.
study-stricter-not = une règle plus stricte demande { $precision }, ce qui n’est pas plus large que les { $agreed } convenus
    .hint = Elle ne ferait rien. Donnez-lui une précision plus large, comme "2 km" ou "parish", ou retirez-la.
study-boundaries-of-parishes = seules les communes ont des limites d’une nature et d’une date
    .hint = Écrivez kind et dated à la couche des communes, ou retirez-les.
study-strip-of-beach = seule la plage (beach) a une bande
    .hint = Écrivez strip à la couche beach : jusqu'où du rivage les objets de la plage peuvent se trouver.
study-licence-of-nobody = une licence demande une mention de source
    .hint = Écrivez qui citer, par exemple credit = "Service du cadastre", à côté de la licence.
study-landowner-blank = un accord avec un propriétaire ne nomme personne
    .hint = Écrivez le nom comme dans la colonne des propriétaires de l’inventaire : landowner = "Ferme longue" ; plusieurs graphies forment une liste.
study-landowner-published = l’accord avec « { $name } » porte sur les terrains d’un propriétaire : il ne peut être ni pour tous ni pour le service destinataire
    .hint = Ce qui vient d’un terrain reste entre vous et son propriétaire. Donnez-lui un destinataire à part, tel que [agreement.ferme-longue], sans publication = true.
study-counts-by-find = l’accord avec « { $name } » donne les nombres par tranche et les découvertes une à une
    .hint = Une liste des découvertes dit combien il y en a dans chaque carré. Ôtez give = ["finds"] et show = ["number"], ou écrivez counts = "exact".
study-language-twice = la langue « { $language } » est citée deux fois
    .hint = Nommez chaque langue une seule fois : languages = ["en", "fr"].
study-is-folder = c’est un dossier, et une étude est un fichier
    .hint = Donnez le fichier d’étude qu’il contient, par exemple study.toml. « strew new DOSSIER --register FICHIER » en écrit un.
study-list-empty = { $key } contient une liste vide
    .hint = Donnez-en au moins un, ou enlevez la ligne.
study-wants-length = « { $key } » est une longueur avec son unité, et { $value } n’en a pas
    .hint = Écrivez { $key } = "{ $value } m", s’il s’agit de mètres.
study-wants-area = « { $key } » est une surface avec son unité, et { $value } n’en a pas
    .hint = Écrivez { $key } = "{ $value } km2" ou "{ $value } ha", selon le cas.
study-dated = « { $text } » n’est ni une année ni un jour
    .hint = Écrivez une année sans guillemets (2024), ou année, mois et jour (2024-04-01).
study-cover = « { $text } » n’est pas une part observée
    .hint = Écrivez une part de 0 à 1, par exemple 0.2, ou des mots entre guillemets.
study-backslash = cette ligne a une barre oblique inverse, qui annonce ici un caractère spécial
    .hint = Écrivez les chemins avec des barres obliques : "ground/parishes.geojson".
study-seal-published = l’accord avec « { $name } » est fait pour publier : il n’y a rien à sceller
    .hint = Placez seal_to sous l’accord avec le service destinataire.
