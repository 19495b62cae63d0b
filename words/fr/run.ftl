step-study = Lecture du fichier d’étude
step-ground = Lecture du terrain
step-register = Lecture de l’inventaire
step-release = Préparation des objets à montrer
step-analysis = Calcul des densités et des tableaux
step-sheets = Dessin des planches
step-pack = Écriture du dossier
run-tally = Lignes lues { $read } = utilisées { $used } + écartées { $aside }
run-tally-reason = {"  "}{ $rows } : { $reason }
run-tally-check = « strew check » les énumère, avec ce qu’il faut faire.
run-ledger-empty = Rien n’a encore été dit à personne.
run-ledger-line = { $number }  { $audience }  publication { $release }
run-ledger-never-given = { $number }  { $audience }  publication { $release }, jamais remise
run-ledger-taken-in = { $n ->
    [0] Aucun objet ne compte comme dit à { $audience } : le dossier repris n’en donne pas.
    [one] Un objet compte comme dit à { $audience }, comme dans le dossier repris.
   *[other] { $n } objets comptent comme dits à { $audience }, comme dans le dossier repris.
}
run-scatters-betrayed = { $n ->
    [one] Les objets d’une concentration serrée sont de part et d’autre du bord de carrés : leurs nombres en situent le centre sur moins que les { $agreed } ha convenus.
   *[other] Les objets de { $n_text } concentrations serrées sont de part et d’autre du bord de carrés : leurs nombres situent chaque centre sur moins que les { $agreed } ha convenus.
}
run-scatter-betrayed = { $tiny ->
    [yes] - sur moins de { $hectares } ha : carrés { $squares }
   *[no] - sur { $hectares } ha : carrés { $squares }
}
run-scatters-advice = Donnez aux objets d’une concentration un même nom dans une colonne « site » pour les donner dans un seul carré, ou convenez de carrés plus grands. (protect_scatters = true en fait un refus.)
run-wrote = { $n ->
    [one] { $n_text } fichier écrit dans { $folder }
   *[other] { $n_text } fichiers écrits dans { $folder }
}
run-wrote-file = Fichier écrit : { $file }
run-not-for-publication = NE PAS PUBLIER : ce dossier est pour son seul destinataire. Ne pas le mettre en ligne, l’imprimer ni le transmettre.
run-cautions = Les lieux précis sont tus car, une fois publiés, ils attirent les fouilles clandestines et ne peuvent être repris. Demandez au propriétaire avant d’entrer sur un terrain. Déclarez les découvertes au service compétent et suivez la loi du lieu. N’allez pas sur les sites protégés. Sur le rivage, méfiez-vous des marées et des falaises.
run-not-given = l’accord avec « { $audience } » ne donne pas « { $giving } »
    .hint = Si cela a été convenu, ajoutez "{ $giving }" à give = [...] sous [agreement.{ $audience }].
run-not-shown = l’accord avec « { $audience } » ne montre pas « { $attribute } »
    .hint = Si cela a été convenu, ajoutez "{ $attribute }" à show = [...] sous [agreement.{ $audience }].
run-no-shore = l’étude n’a pas de couche publique de rivage
    .hint = Nommez-en une sous [ground] : shore = {"{"} file = "ground/shore.geojson" {"}"}.
run-nothing-in-squares = aucun objet n’est montré dans un carré : il n’y a rien à calculer
    .hint = Les objets placés par leur seule commune ne comptent que dans les tableaux et les cartes par commune.
run-map-ending = une planche ne s’écrit pas en « { $ending } »
    .hint = Terminez le nom du fichier par .svg, .png, .pdf ou .tif.
run-table-ending = un tableau ne s’écrit pas en « { $ending } »
    .hint = Terminez le nom du fichier par .csv, .md, .html ou .xlsx.
run-table-same = lignes et colonnes sont les mêmes
    .hint = Choisissez-en deux parmi class, period, parish, strength, setting, concentration.
run-unknown-term = « { $text } » n’est pas connu ({ $key })
    .hint = Connus : { $known }.
run-rows-so-far = { $n ->
    [one] { $n_text } ligne
   *[other] { $n_text } lignes
}
licences-data = Données
licences-fonts = Polices de caractères
licences-libraries = Bibliothèques
licences-crates = Paquets
licences-see = texte { $texts }
licences-text = --- { $heading }, texte { $number } ---
licences-damaged = une liste de mentions à l’intérieur du programme est abîmée
    .hint = Reconstruisez ou récupérez à nouveau le programme ; les listes se trouvent aussi dans docs/licences.
run-published-closely = Cet accord publie des carrés de { $precision } : autant donner les lieux, et rien ne peut être repris. L’usage est de montrer les découvertes au public au kilomètre.
run-blank-ending = « { $file } » ne se termine pas par .pdf
    .hint = Les pages à remplir sont des PDF, à imprimer : --out fiche.pdf.
run-no-parishes = l’étude n’a pas de couche publique des communes
    .hint = Nommez-en une sous [ground] : parishes = {"{"} file = "ground/parishes.geojson", name = "parish" {"}"}.
run-parish-unknown = la couche n’a pas de commune nommée « { $name } »
    .hint = Connues : { $known }.
run-no-land-of = Aucune ligne de l’inventaire n’est donnée comme venant de { $land } : la copie est vide. Les noms s’écrivent comme dans l’inventaire.
run-pair-unlike = les deux accords avec « { $audience } » diffèrent par « { $key } »
    .hint = Deux versions ne se placent côte à côte que si elles sont faites pour des destinataires semblables : donnez aux deux accords le même quadrillage, la même précision, les mêmes règles plus strictes et les mêmes champs montrés.
run-map-nothing = Rien à montrer de ce qui est demandé : la carte est vide.
    .hint = « strew table » dit quelles classes et périodes il y a.
run-map-none-before = Rien à montrer d’avant { $year }.
    .hint = Choisissez une année comprise dans celles du ramassage.
run-map-none-from = Rien à montrer depuis { $year }.
    .hint = Choisissez une année comprise dans celles du ramassage.
run-parish-folder = « { $file } » ressemble au nom d’un fichier, et il y a une page par commune
    .hint = Donnez un dossier, ou une seule commune : --parish NOM --out commune.pdf.
run-seal-file = { $file } ne peut être lu ({ $why })
    .hint = Donnez une clé, age1…, ou le chemin d’un fichier.
run-seal-folder = { $path } est un dossier, et un envoi scellé est un seul fichier
    .hint = Nommez un fichier : --out depot.zip.age.
run-seal-no-terminal = il n’y a pas de terminal où demander la phrase secrète
    .hint = Écrivez-la sur la première ligne d’un fichier que vous seul pouvez lire, et donnez --passphrase-file FICHIER.
run-seal-differs = les deux phrases secrètes diffèrent
    .hint = Rien n’a été écrit. Recommencez, et tapez deux fois les mêmes mots.
run-seal-ask = Phrase secrète (non affichée) :{" "}
run-seal-ask-again = Encore une fois :{" "}
run-seal-tell = Il est scellé, et rien n’en a été écrit en clair. Joignez ces mots :
run-seal-plain-beside = Un envoi non scellé se trouve dans { $folder } : supprimez-le s’il n’a pas à y être.
