package words

// survey is what the survey asks and answers, beyond the names of its fields.
var survey = map[string]entry{
	"survey.parts":            {"Parts of the survey", "Parties du relevé", "Partes de la inspección", "Teile der Aufnahme"},
	"survey.part.short":       {"Short way", "Voie courte", "Camino corto", "Kurzer Weg"},
	"survey.part.house":       {"House", "Maison", "Casa", "Haus"},
	"survey.part.rooms":       {"Rooms", "Pièces", "Habitaciones", "Räume"},
	"survey.part.circuits":    {"Circuits", "Circuits", "Circuitos", "Heizkreise"},
	"survey.part.boiler-room": {"Boiler room", "Chaufferie", "Sala de calderas", "Heizraum"},
	"survey.part.hot-water":   {"Hot water", "Eau chaude", "Agua caliente", "Warmwasser"},
	"survey.part.habits":      {"Program and frost", "Programme et gel", "Programa y heladas", "Programm und Frost"},
	"survey.part.control":     {"Control", "Régulation", "Regulación", "Regelung"},
	"survey.open":             {"%d answer missing || %d answers missing", "%d réponse manque || %d réponses manquent", "falta %d respuesta || faltan %d respuestas", "%d Antwort fehlt || %d Antworten fehlen"},
	"survey.gaps":             {"%d answer stands between you and the settings || %d answers stand between you and the settings", "%d réponse manque pour les réglages || %d réponses manquent pour les réglages", "Falta %d respuesta para los ajustes || Faltan %d respuestas para los ajustes", "%d Antwort fehlt noch für die Einstellungen || %d Antworten fehlen noch für die Einstellungen"},
	"survey.unused":           {"%d answer is not in these figures: what is wrong stands at its field, and what you typed is still there. || %d answers are not in these figures: what is wrong stands at their fields, and what you typed is still there.", "%d réponse n’entre pas dans ces chiffres : l’erreur est dite à son champ, et votre saisie y reste. || %d réponses n’entrent pas dans ces chiffres : l’erreur est dite à leur champ, et votre saisie y reste.", "%d respuesta no entra en estas cifras: el error se dice en su campo y lo escrito sigue ahí. || %d respuestas no entran en estas cifras: el error se dice en su campo y lo escrito sigue ahí.", "%d Antwort steckt nicht in diesen Zahlen: was falsch ist, steht am Feld, und Ihre Eingabe ist noch da. || %d Antworten stecken nicht in diesen Zahlen: was falsch ist, steht am Feld, und Ihre Eingaben sind noch da."},
	"survey.more":             {"%d more question || %d more questions", "%d question de plus || %d questions de plus", "%d pregunta más || %d preguntas más", "%d weitere Frage || %d weitere Fragen"},
	"survey.save":             {"Save and work it out", "Enregistrer et calculer", "Guardar y calcular", "Speichern und rechnen"},
	"survey.kept":             {"All is saved", "Tout est enregistré", "Todo está guardado", "Alles ist gespeichert"},
	"survey.assumed":          {"%d figure is still assumed || %d figures are still assumed", "%d chiffre est encore supposé || %d chiffres sont encore supposés", "%d cifra todavía se supone || %d cifras todavía se suponen", "%d Zahl ist noch angenommen || %d Zahlen sind noch angenommen"},
	"survey.assumed.lead":     {"Nobody has entered these; each answer in the survey replaces one. What would narrow the result most stands above.", "Personne ne les a saisis ; chaque réponse du relevé en remplace un. Ce qui préciserait le plus le résultat est dit plus haut.", "Nadie los ha introducido; cada respuesta de la inspección sustituye uno. Arriba está lo que más precisaría el resultado.", "Niemand hat sie eingetragen; jede Antwort der Aufnahme ersetzt eine. Was das Ergebnis am meisten einengen würde, steht oben."},
	"survey.saving":           {"Saving …", "Enregistrement …", "Guardando …", "Wird gespeichert …"},
	"survey.away":             {"Not saved: the server does not answer. What you typed stays here; trying again.", "Pas enregistré : le serveur ne répond pas. Votre saisie reste ici ; nouvel essai en cours.", "Sin guardar: el servidor no responde. Lo escrito sigue aquí; se intenta de nuevo.", "Nicht gespeichert: der Server antwortet nicht. Ihre Eingaben bleiben hier; neuer Versuch läuft."},
	"survey.undo":             {"Undo", "Annuler", "Deshacer", "Rückgängig"},
	"survey.redo":             {"Redo", "Rétablir", "Rehacer", "Wiederholen"},
	"survey.accepted":         {"Accepted:", "Accepté :", "Se acepta:", "Angenommen wird:"},
	"survey.needed":           {"An answer is needed here", "Une réponse est nécessaire ici", "Aquí hace falta una respuesta", "Hier wird eine Antwort gebraucht"},
	"survey.about":            {"About: %s", "À propos : %s", "Acerca de: %s", "Erklärung: %s"},
	"survey.notsaid":          {"not said", "non dit", "sin decir", "nicht gesagt"},
	"survey.written":          {"written as %s", "écrit %s", "escrito como %s", "geschrieben als %s"},
	"survey.known":            {"How known: %s", "D’où l’on sait : %s", "Cómo se sabe: %s", "Woher bekannt: %s"},
	"survey.kind":             {"What it is", "Ce que c’est", "Qué es", "Was es ist"},
	"survey.duplicate":        {"Copy", "Copier", "Copiar", "Kopieren"},
	"survey.remove":           {"Remove", "Enlever", "Quitar", "Entfernen"},
	"survey.elsewhere":        {"Somebody changed this to “%s” meanwhile. Type the right value once more to keep it.", "Quelqu’un a mis « %s » entre-temps. Tapez encore la bonne valeur pour la garder.", "Alguien lo cambió a «%s» entretanto. Escriba otra vez el valor correcto para guardarlo.", "Jemand hat hier inzwischen „%s“ eingetragen. Tippen Sie den richtigen Wert noch einmal, um ihn zu behalten."},
	"survey.ambiguous":        {"%s can be read in two ways: write %s or %s.", "%s se lit de deux façons : écrivez %s ou %s.", "%s se puede leer de dos maneras: escriba %s o %s.", "%s lässt sich auf zwei Arten lesen: schreiben Sie %s oder %s."},

	"known.unsaid":    {"how known?", "d’où ?", "¿cómo se sabe?", "woher?"},
	"known.measured":  {"measured", "mesuré", "medido", "gemessen"},
	"known.drawings":  {"from drawings", "d’après plans", "de planos", "aus Plänen"},
	"known.bills":     {"from bills", "d’après factures", "de facturas", "aus Rechnungen"},
	"known.estimated": {"estimated", "estimé", "estimado", "geschätzt"},
}

// rooms are the messages of the table of rooms.
var rooms = map[string]entry{
	"rooms.title":      {"%d room || %d rooms", "%d pièce || %d pièces", "%d habitación || %d habitaciones", "%d Raum || %d Räume"},
	"rooms.lead":       {"One line for each. Enter goes down and makes a new line at the end; cells from a spreadsheet can be pasted in.", "Une ligne par pièce. Entrée descend et ouvre une ligne à la fin ; des cellules d’un tableur peuvent être collées.", "Una línea por habitación. Intro baja y abre una línea al final; se pueden pegar celdas de una hoja de cálculo.", "Eine Zeile je Raum. Eingabe geht nach unten und macht am Ende eine neue Zeile; Zellen aus einer Tabelle lassen sich einfügen."},
	"rooms.emitter":    {"Heated by", "Chauffée par", "Calentada por", "Beheizt durch"},
	"rooms.size":       {"Size", "Taille", "Tamaño", "Größe"},
	"rooms.surfaces":   {"from its surfaces", "d’après ses parois", "por sus superficies", "aus seinen Flächen"},
	"rooms.more":       {"Details", "Détails", "Detalles", "Einzelheiten"},
	"rooms.remove":     {"Remove %s", "Enlever %s", "Quitar %s", "%s entfernen"},
	"rooms.share":      {"Share the house’s heat load by floor area", "Répartir la charge de la maison par surface", "Repartir la carga de la casa por superficie", "Heizlast des Hauses nach Fläche verteilen"},
	"rooms.all":        {"All rooms", "Toutes les pièces", "Todas las habitaciones", "Alle Räume"},
	"rooms.paste":      {"Paste from a spreadsheet", "Coller d’un tableur", "Pegar de una hoja de cálculo", "Aus einer Tabelle einfügen"},
	"rooms.paste.lead": {"Columns in this order: name, floor area, temperature, heat load, what heats it, its size. One room on each line.", "Colonnes dans cet ordre : nom, surface, température, charge, ce qui la chauffe, sa taille. Une pièce par ligne.", "Columnas en este orden: nombre, superficie, temperatura, carga, qué la calienta, su tamaño. Una habitación por línea.", "Spalten in dieser Reihenfolge: Name, Fläche, Temperatur, Heizlast, womit beheizt, dessen Größe. Ein Raum je Zeile."},
	"rooms.paste.go":   {"Add these rooms", "Ajouter ces pièces", "Añadir estas habitaciones", "Diese Räume hinzufügen"},
}

// answers are messages about results.
var answers = map[string]entry{}
