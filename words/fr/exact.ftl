# Registres : ce qui empêche la lecture d’un fichier.
register-unreadable = impossible d’ouvrir le fichier de l’inventaire : { $why }
    .hint = Vérifiez le chemin, et qu’aucun autre programme n’utilise le fichier.
register-empty = le fichier de l’inventaire est vide
    .hint = Enregistrez de nouveau le tableau, ou retirez le fichier du fichier d’étude.
register-not-text = sous un nom de fichier texte, il s’agit d’un classeur, d’une image ou d’un autre type de fichier
    .hint = Ouvrez-le dans son programme d’origine et enregistrez-le en CSV, de préférence « CSV UTF-8 ».
register-spreadsheet = le classeur ne peut pas être lu : { $why }
    .hint = Ouvrez-le, choisissez « Enregistrer sous », puis « CSV UTF-8 » (ou XLSX de nouveau), et nommez ce fichier dans le fichier d’étude.
register-waypoints = les points ne peuvent pas être lus : { $why }
    .hint = Enregistrez-les de nouveau depuis le téléphone ou le récepteur, en GPX.
register-no-waypoints = le fichier ne contient aucun point
    .hint = Une trace ou un itinéraire dit où l’on a marché, et n’est pas une découverte. Enregistrez les découvertes comme points (waypoints).
register-no-spreadsheet = le fichier n’est pas un classeur, bien que son nom finisse ainsi
    .hint = Si c’est un tableau en texte, son nom doit finir par .csv ; s’il est venu par courriel, redemandez-le.
register-format = les fichiers « .{ $ending } » ne sont pas lus
    .hint = Enregistrez l’inventaire en CSV (de préférence « CSV UTF-8 »), TSV ou TXT.
register-pattern = « { $pattern } » n’est pas un modèle de noms de fichiers
    .hint = Écrivez un chemin, ou un modèle tel que "sorties/*.csv".
register-no-file = aucun fichier ne correspond à « { $pattern } »
    .hint = Les chemins partent du dossier du fichier d’étude. Vérifiez l’orthographe, les majuscules et l’extension.
register-no-headings = aucune ligne d’en-têtes n’a été trouvée
    .hint = Une ligne, près du haut, doit nommer les colonnes, par exemple « N°, Réf. grille, Désignation, Nb ». D’autres en-têtes peuvent être indiqués sous [register.columns] dans le fichier d’étude.
register-no-column = aucun fichier de l’inventaire n’a de colonne « { $heading } »
    .hint = L’en-tête le plus proche est « { $nearest } ». Tous les en-têtes : { $known }.

# Registres : précisions sur une ligne écartée.
register-open-quote = un guillemet est ouvert et n’est pas fermé
    .hint = Fermez-le ou retirez-le. Pour « comme ci-dessus », écrivez « idem » plutôt qu’un simple guillemet.
register-too-many-cells = la ligne a { $cells } cellules, pour { $columns } colonnes
    .hint = Une virgule dans une cellule demande des guillemets autour de toute la cellule ; ou enregistrez avec des points-virgules.
register-count-became-date = une date : un tableur a sans doute transformé ainsi un intervalle tel que « 3-5 »
    .hint = Écrivez le plus petit nombre de pièces en chiffres, ou mettez la colonne au format texte et écrivez « 3 à 5 ».
register-half-a-place = l’une des deux coordonnées manque
    .hint = Remplissez les deux colonnes, ou donnez seulement la commune.
register-letters-lost = la référence a perdu ses lettres
    .hint = Les références voisines commencent par { $letters }. Si c’est aussi le cas de celle-ci, écrivez les lettres devant les chiffres.
register-letters-lost-unknown = la référence n’a pas de lettres devant ses chiffres
    .hint = Écrivez devant les chiffres les deux lettres du carré de cent kilomètres.
register-class-near = proche d’une classe du vocabulaire : { $nearest }
    .hint = Si c’est elle, corrigez l’orthographe.

# Pourquoi une ligne a été écartée.
reason-no-place = ni lieu ni commune
    .hint = Donnez une référence du quadrillage, un couple de coordonnées ou la commune. Pour « comme ci-dessus », écrivez « idem ».
reason-place-unreadable = le lieu est illisible
    .hint = Écrivez-le en référence du quadrillage (« OV 523 417 »), en coordonnées X et Y, ou en degrés.
reason-place-ambiguous = le lieu peut se lire de deux façons
    .hint = Écrivez-le de sorte qu’une seule reste possible : avec ses lettres, son hémisphère ou son système.
reason-place-outside = le lieu est hors du système dans lequel il est écrit
    .hint = Vérifiez s’il y a un chiffre de trop ou de moins, et si X et Y sont intervertis.
reason-far-away = le lieu est loin du terrain de l’étude
    .hint = Vérifiez lettres et chiffres, et si X et Y sont intervertis. Si le lieu est juste, les couches s’arrêtent trop tôt.
reason-parish-unknown = placée par sa commune seule, et la commune n’est pas dans la couche
    .hint = Écrivez la commune comme la couche, ou ajoutez-la à la couche.
ledger-not-opened = le registre de ce qui a été dit ne s’ouvre pas : { $why }
    .hint = Rien n’est remis à personne sans lui. Rendez son dossier accessible en écriture, ou nommez-en un autre : [register] ledger = "…".
ledger-not-written = le registre de ce qui a été dit ne s’écrit pas : { $why }
    .hint = Rien n’est remis à personne sans lui. Cherchez de la place sur le disque, et rendez son dossier accessible en écriture.
ledger-spoilt = le registre de ce qui a été dit a été modifié par autre chose
    .hint = Remettez la dernière bonne copie de son dossier et de son compte, puis reprenez avec "strew ledger --take-in" les dossiers remis depuis.
ledger-cut = le registre de ce qui a été dit est plus court qu’avant : { $held } lignes sur { $told }
    .hint = Il a été coupé, ou une copie plus ancienne a été remise. Remettez la dernière ; s’il n’y en a pas, reprenez les dossiers remis depuis avec "strew ledger --take-in".
ledger-no-head = le compte du registre de ce qui a été dit manque ou est abîmé
    .hint = Remettez-le à côté du dossier : sans lui, rien ne dit si le registre est entier.
ledger-no-release = ce qui était gardé de cette publication manque ou a été modifié
    .hint = Remettez le dossier des publications depuis une copie.
ledger-no-publication = le registre de ce qui a été dit n’a pas de publication { $number }
    .hint = "strew ledger STUDY" en donne la liste.
ledger-no-pack = ce n’est pas un dossier de ce programme
    .hint = Donnez le dossier qui contient MANIFEST.json.
ledger-renumbered = cette ligne porte le numéro d’un objet et dit ce qu’un autre disait : les numéros ont peut-être été redonnés
    .hint = Rien n’a été écrit. Si les lignes ont été renumérotées, écrivez known_by = "content" sous [register] ; si leurs lieux ou leurs dates ont été corrigés, écrivez known_by = "number". Retirez-le après le prochain dossier.
ledger-number-twice = plusieurs lignes modifiées portent ce numéro, et rien ne dit laquelle est laquelle
    .hint = Rien n’a été écrit. Redonnez à chaque ligne son numéro ; ou écrivez known_by = "content" sous [register] pour prendre les lignes modifiées comme de nouveaux objets.
ledger-unnumbered = une ligne sans numéro a été modifiée, ou l’une a été retirée et une autre ajoutée
    .hint = Rien n’a été écrit. Numérotez les lignes et gardez les numéros ; ou écrivez known_by = "content" sous [register] pour prendre les lignes modifiées comme de nouveaux objets.
ledger-entered-anew = cette ligne est nouvelle, et pourrait être un objet déjà inscrit sous un autre numéro, dans un carré voisin de celui-ci
    .hint = Rien n’a été écrit : les deux carrés ensemble diraient sur quelle limite il se trouve. Si c’est bien cet objet, redonnez-lui son ancien numéro. Si c’en est un autre, écrivez known_by = "number" sous [register], et retirez-le après le prochain dossier.
exact-scatters-betrayed = { $n ->
        [0] aucune concentration serrée ne serait située
        [one] une concentration serrée serait située
       *[other] { $n } concentrations serrées seraient situées
    } sur moins de terrain que convenu, la plus serrée sur { $hectares } ha
    .hint = Rien n’a été écrit. Donnez aux objets d’une concentration un même nom dans une colonne « site » : ils sont alors donnés dans un seul carré ; ou convenez de carrés plus grands ; ou retirez protect_scatters.
reason-ground-too-small = le lieu est sur un terrain trop petit pour être montré à ce destinataire
    .hint = Convenez d’une précision plus large ou d’un "smallest_area" plus petit, ou donnez la couche des communes : ces objets sont alors donnés par commune.
reason-told-before = déjà donné d’une autre façon : le redonner en dirait plus que convenu
    .hint = Il n’y a rien à faire. Gardez une seule grille et une seule précision par destinataire, et pour ceux qui peuvent se parler.
    .hint = Écrivez la commune comme la couche, ou ajoutez-la à la couche.
reason-count-unreadable = le nombre de pièces est illisible
    .hint = Écrivez un nombre en chiffres. « env. 20 », « 12+ », « plusieurs » et « 3 à 5 » sont compris aussi.
reason-count-zero = le nombre de pièces est nul ou négatif
    .hint = Corrigez le nombre, ou retirez la ligne. Un terrain parcouru sans découverte va sous [[fieldwork]].
reason-natural = notée comme naturelle
    .hint = Rien, si elle est naturelle. Si elle est taillée, écrivez sa classe.
reason-total-line = une ligne de total
    .hint = Rien : les totaux sont recalculés.
reason-heading = un intertitre entre les lignes
    .hint = Rien. S’il donne une année ou une parcelle, écrivez-la dans une colonne, sur chaque ligne.
reason-damaged = la ligne est abîmée
    .hint = Ouvrez le fichier dans un éditeur de texte, à cette ligne, et corrigez-la.

# Pourquoi une ligne utilisée est peut-être fausse.
doubt-class-unknown = la classe n’est pas dans le vocabulaire ; comptée comme indéterminée
    .hint = docs/register.md donne les mots. Le mot tel qu’écrit est gardé.
doubt-class-queried = la classe porte un point d’interrogation ; elle est prise telle quelle
    .hint = Faites examiner la pièce, puis retirez la question ou écrivez une autre classe.
doubt-maybe-natural = la remarque dit qu’elle est peut-être naturelle
    .hint = Si c’est le cas, écrivez « naturel » comme classe : elle sera écartée.
doubt-period-unknown = la période n’est pas comprise ; comptée comme non datée
    .hint = Écrivez une période du vocabulaire, ou des années telles que « 4000-3500 av. J.-C. ».
doubt-period-queried = la période porte un point d’interrogation ; elle est prise telle quelle
    .hint = Si la date est une supposition, écrivez la période plus large ou laissez vide.
doubt-years-unclear = les années vont à rebours ou n’ont pas d’ère ; elles sont lues avant J.-C.
    .hint = Écrivez d’abord l’année la plus ancienne, et l’ère après : « 4000-3500 av. J.-C. ».
doubt-count-large = plus de pièces en une ligne qu’un sac n’en contient
    .hint = Vérifiez qu’il s’agit d’un nombre de pièces, et non d’un numéro, d’un poids ou d’une date.
doubt-filled-from-above = ni lieu ni numéro propres : prise comme suite de l’entrée au-dessus
    .hint = Si ce n’est pas le cas, donnez à la ligne son lieu ou sa commune. « idem » le dit clairement.
doubt-ditto-above-nothing = une marque « idem » sans rien au-dessus
    .hint = Écrivez ce qu’elle remplace.
doubt-place-in-words = le lieu est en toutes lettres ; la ligne n’est utilisée que par sa commune
    .hint = Cherchez le lieu sur une carte et écrivez ses coordonnées.
doubt-uncertainty-unreadable = l’incertitude est illisible ; aucune n’est retenue
    .hint = Écrivez des mètres : « 10 m ».
doubt-marks-unknown = ces mots ne désignent aucun stigmate de la liste ; ils ne comptent pas
    .hint = La liste : talon, bulbe, ondulations, nervures, retouche. Le reste va dans la remarque.
doubt-mark-queried = le stigmate porte un point d’interrogation ; il n’est pas compté comme vu
    .hint = Regardez de nouveau, et écrivez oui ou non.
doubt-setting-unknown = le contexte n’est pas dans le vocabulaire ; compté comme inconnu
    .hint = Écrivez labour, prairie, jardin, bois, chemin, plage, coupe de falaise, éboulement, dune, déblai ou rapporté.
doubt-standing-unknown = la position n’est pas dans le vocabulaire ; comptée comme inconnue
    .hint = Écrivez en place, perturbé, roulé ou rapporté.
doubt-length-unreadable = la longueur est illisible ; elle est laissée de côté
    .hint = Écrivez un nombre en millimètres, ou avec son unité : « 34 mm », « 3,4 cm ».
doubt-length-unlikely = longueur étrange pour une pierre taillée : s’agit-il de millimètres ?
    .hint = Écrivez l’unité dans la cellule : « 34 mm » ou « 3,4 cm ».
doubt-weight-unreadable = le poids est illisible ; il est laissé de côté
    .hint = Écrivez un nombre en grammes, ou avec son unité : « 12 g ».
doubt-weight-unlikely = poids étrange pour une pierre taillée : s’agit-il de grammes ?
    .hint = Écrivez l’unité dans la cellule : « 12 g » ou « 0,5 kg ».
doubt-date-future = trouvée après la date de l’étude
    .hint = Corrigez la date de découverte, ou la date de l’étude.
doubt-date-unlikely = trouvée avant que personne ne tienne de tels inventaires
    .hint = Corrigez l’année. L’âge des objets va dans la colonne des périodes.
doubt-note-gives-place = la remarque trahit un lieu
    .hint = Il est retiré partout où la remarque est montrée. Mieux vaut l’ôter de la remarque.
doubt-counted-twice = la remarque dit qu’elle comprend une pièce qui a sa propre ligne : les deux sont comptées
    .hint = Ôtez la pièce du nombre du sac, ou retirez sa ligne.
doubt-row-twice = la même ligne qu’une autre plus haut, avec ce numéro : les deux sont comptées
    .hint = Retirez l’une des deux.
doubt-number-twice = une ligne plus haut porte le même numéro et dit autre chose
    .hint = Corrigez l’un des numéros.
doubt-one-reference = un seul lieu précis pour beaucoup de découvertes : peut-être un point pris pour tout un champ
    .hint = Si c’est le cas, réduisez la référence au carré qui contient le champ, ou indiquez l’incertitude.
doubt-maybe-swapped = le lieu est hors du terrain de l’étude, et y serait si X et Y étaient intervertis
    .hint = Comparez les deux nombres avec la carte.
doubt-other-parish = le lieu est dans une autre commune que celle indiquée
    .hint = Vérifiez la référence et la commune. Près d’une limite, les deux peuvent être justes.
doubt-sheet-passed-over = la feuille n’a pas d’en-têtes d’inventaire, et ses lignes ne sont pas lues
    .hint = Si elle contient des découvertes, donnez-lui une ligne d’en-têtes comme « Coordonnées » et « Désignation » ; sinon, rien n’est faux.
doubt-in-the-sea = le lieu est hors de la terre
    .hint = Vérifiez la référence. Une découverte de l’estran peut être hors de la couche de terre ; alors rien n’est faux.

# Ce que dit check.
check-file = { $file } : { $encoding }, séparé par { $separator }, en-têtes à la ligne { $heading }, dernière ligne { $last }
check-tab = des tabulations
check-decimal-comma = les nombres ont une virgule décimale
check-system = ses en-têtes indiquent le système { $system }
check-understood = colonnes comprises : { $list }
check-not-understood = colonnes non utilisées : { $list }
check-set-aside = LIGNES ÉCARTÉES
check-doubts = DOUTES (ces lignes sont utilisées)
check-problem = { $spot } : { $written }
check-more = et { $n_text } autres
check-audience = « { $audience } » ({ $precision }) verrait { $finds } découvertes, { $pieces } pièces : { $sides }
check-by-parish = { $finds } par commune
check-in-squares = { $finds } en carrés de { $side }
check-doubts-total = { $n ->
    [0] Aucun doute.
    [one] { $n_text } doute.
   *[other] { $n_text } doutes.
}
check-total = Lignes lues { $read } = utilisées { $used } + écartées { $aside } (pour « { $audience } »)
check-rows-as-spreadsheet = Les lignes sont numérotées comme dans un tableur : la première est la ligne 1, et les lignes vides comptent.
check-owner-only = Cette liste donne des lieux précis. Gardez-la pour vous.

# Ce que dit new, et ce qu’il écrit dans le fichier d’étude.
new-exists = { $path } existe déjà
    .hint = Modifiez-le, ou nommez un autre dossier. Rien n’a été écrasé.
new-file = { $file } : { $encoding }, séparé par { $separator }, en-têtes à la ligne { $heading }
new-no-place = aucune colonne ne dit où étaient les découvertes : nommez-en une sous [register.columns]
new-grid = L’étude travaille en { $grid } ; changez grid dans le fichier d’étude si c’est faux.
new-next = Modifiez-le : avant tout la précision convenue avec chaque destinataire. Puis lancez : strew check { $file }
new-toml-head = Une étude : ce qui est montré d’un inventaire, et à qui.
    docs/study-file.md décrit chaque clé. Les chemins partent du dossier de ce fichier.
new-toml-grid = Le quadrillage dans lequel tout est mesuré et montré : british-grid, lambert-93, ou un code EPSG d’un quadrillage en mètres.
new-toml-date = La date imprimée sur les feuilles. Aucune horloge n’est jamais lue.
new-toml-system = Le système des X et Y dont les en-têtes n’en indiquent aucun ; le quadrillage de l’étude sauf mention.
new-toml-columns = Le sens donné à chaque en-tête. Si l’un est faux, ôtez le dièse
    devant [register.columns] et devant une ligne par champ. Une colonne nommée vaut pour tous les fichiers qui l’ont.
new-toml-unused = non utilisées : { $list }
new-toml-ground = Couches du terrain. Communes, terre et rivage sont publics sauf mention ; les autres sont privées sauf mention.
new-toml-public = Ce qui a été convenu pour le public. 1 km est un point de départ, pas un conseil : demandez au service.
new-toml-stricter = Types de découvertes qui demandent un carré plus grand.
new-toml-office = Ce que le service régional a demandé. Demandez, ne supposez pas.
check-heading-near = "{ $heading }" (s’il s’agit de { $field }, corrigez l’en-tête)
register-is-folder = « { $pattern } » est un dossier
    .hint = Donnez les fichiers qu’il contient : files = ["{ $pattern }/*.csv"].
check-file-book = { $file } : { $encoding }, en-têtes à la ligne { $heading }, dernière ligne { $last }
check-file-passed-over = { $file } : { $encoding }, sans en-têtes d’inventaire, dernière ligne { $last } : laissé de côté
check-encoding-spreadsheet = un tableur
check-encoding-waypoints = des points de passage (le premier est la ligne 2)
new-file-book = { $file } : { $encoding }, en-têtes à la ligne { $heading }
check-agreements = LES ACCORDS
check-land-unknown = « { $audience } » : aucune ligne n’est dite venir des terres de « { $land } »
    .hint = Les noms doivent être écrits comme dans l’inventaire.
check-land-near = « { $audience } » : aucune ligne n’est dite venir des terres de « { $land } » ; s’agit-il de « { $nearest } » ?
check-audience-near = L’accord « { $audience } » s’appelle presque « { $nearest } ». S’il s’agit de « { $nearest } », corrigez-le : les commandes prennent « { $nearest } » sauf indication contraire.
