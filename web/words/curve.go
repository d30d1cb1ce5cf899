package words

// curveWords are the messages of the page on which a curve is tried, and of the workings
// behind figures.
var curveWords = map[string]entry{
	"places.curve": {"Curve", "Courbe", "Curva", "Kurve"},

	"curve.lead":        {"Try another curve and see what the house makes of it. Nothing here is saved; values are in the control’s own degrees and steps.", "Essayez une autre courbe et voyez ce que la maison en fait. Rien n’est enregistré ici ; les valeurs sont dans les degrés et les pas de la régulation.", "Pruebe otra curva y vea qué hace la casa con ella. Aquí no se guarda nada; los valores están en los grados y pasos de la regulación.", "Probieren Sie eine andere Kurve und sehen Sie, was das Haus daraus macht. Hier wird nichts gespeichert; die Werte stehen in Graden und Schritten der Regelung."},
	"curve.drag":        {"Drag the round handles, or move them with the arrow keys.", "Faites glisser les poignées rondes, ou déplacez-les avec les flèches du clavier.", "Arrastre los tiradores redondos o muévalos con las flechas del teclado.", "Ziehen Sie die runden Griffe, oder bewegen Sie sie mit den Pfeiltasten."},
	"curve.key":         {"Shaded: what the leading room needs in 9 cases of 10. Bars: hours of the year.", "Ombré : ce qu’il faut à la pièce qui commande dans 9 cas sur 10. Barres : heures de l’année.", "Sombreado: lo que necesita la habitación que manda en 9 de 10 casos. Barras: horas del año.", "Schattiert: was der maßgebende Raum in 9 von 10 Fällen braucht. Balken: Stunden im Jahr."},
	"curve.chart":       {"Curve that is tried on %s", "Courbe essayée sur %s", "Curva que se prueba en %s", "Kurve, die an %s probiert wird"},
	"curve.tried":       {"Tried", "Essayée", "Probada", "Probiert"},
	"curve.recommended": {"Recommended", "Conseillée", "Aconsejada", "Empfohlen"},
	"curve.found":       {"As found", "Trouvée", "Encontrada", "Vorgefunden"},
	// On the chart, where a line carries its own name.
	"curve.line.tried":       {"tried", "essayée", "probada", "probiert"},
	"curve.line.recommended": {"recommended", "conseillée", "aconsejada", "empfohlen"},
	"curve.line.found":       {"as found", "trouvée", "encontrada", "vorgefunden"},
	"curve.line.need":        {"need", "besoin", "necesario", "Bedarf"},

	"curve.cold":        {"Cold point", "Point froid", "Punto frío", "Kalter Punkt"},
	"curve.mild":        {"Mild point", "Point doux", "Punto templado", "Milder Punkt"},
	"curve.point":       {"Point %d", "Point %d", "Punto %d", "Punkt %d"},
	"curve.slope-shift": {"Slope and shift", "Pente et décalage", "Pendiente y desplazamiento", "Neigung und Verschiebung"},
	"curve.bend":        {"Bend", "Courbure", "Curvatura", "Krümmung"},
	"curve.outdoor":     {"Outdoors", "Dehors", "Exterior", "Außen"},
	"curve.supply":      {"Supply", "Départ", "Impulsión", "Vorlauf"},
	"curve.slope":       {"Slope", "Pente", "Pendiente", "Neigung"},
	"curve.shift":       {"Parallel shift", "Décalage parallèle", "Desplazamiento paralelo", "Parallelverschiebung"},
	"curve.shift.by":    {"Shift from the recommended", "Décalage par rapport à la conseillée", "Desplazamiento desde la aconsejada", "Verschiebung gegen die empfohlene"},
	"curve.exponent":    {"Exponent", "Exposant", "Exponente", "Exponent"},
	"curve.handle":      {"{name}: {supply} at {outdoor} outdoors", "{name} : {supply} pour {outdoor} dehors", "{name}: {supply} con {outdoor} fuera", "{name}: {supply} bei {outdoor} außen"},
	"curve.try":         {"Try this curve", "Essayer cette courbe", "Probar esta curva", "Diese Kurve probieren"},
	"curve.reset":       {"Use the recommended", "Prendre la conseillée", "Usar la aconsejada", "Empfohlene nehmen"},
	"curve.nonumber":    {"A number is needed here, %s to %s.", "Il faut ici un nombre, de %s à %s.", "Aquí hace falta un número, de %s a %s.", "Hier wird eine Zahl gebraucht, %s bis %s."},
	"curve.away":        {"The server does not answer; the figures shown are the last ones.", "Le serveur ne répond pas ; les chiffres affichés sont les derniers.", "El servidor no responde; las cifras mostradas son las últimas.", "Der Server antwortet nicht; die Zahlen sind die letzten."},
	"curve.nojudgement": {"This curve cannot be worked out: %s.", "Cette courbe ne peut pas être calculée : %s.", "Esta curva no se puede calcular: %s.", "Diese Kurve lässt sich nicht durchrechnen: %s."},

	"curve.found.enter":    {"Enter the curve as it was found", "Saisir la courbe trouvée", "Introducir la curva encontrada", "Vorgefundene Kurve eingeben"},
	"curve.found.lead":     {"What the control was set to before, to see beside the recommended. It is not saved with the job.", "Ce qui était réglé avant, à voir à côté de la conseillée. Ce n’est pas enregistré avec le chantier.", "Lo que tenía la regulación antes, para verlo junto a la aconsejada. No se guarda con el trabajo.", "Was vorher eingestellt war, neben der empfohlenen zu sehen. Es wird nicht mit dem Auftrag gespeichert."},
	"curve.found.surveyed": {"The curve of the survey. Other figures typed here are tried in its place and not saved.", "La courbe du relevé. D’autres chiffres saisis ici sont essayés à sa place, sans être enregistrés.", "La curva de la inspección. Otras cifras que se escriban aquí se prueban en su lugar y no se guardan.", "Die Kurve der Aufnahme. Andere Zahlen, die hier eingegeben werden, werden an ihrer Stelle ausprobiert und nicht gespeichert."},
	"curve.found.all":      {"Fill in all figures of the curve that was found, or none.", "Remplissez tous les chiffres de la courbe trouvée, ou aucun.", "Rellene todas las cifras de la curva encontrada o ninguna.", "Füllen Sie alle Zahlen der vorgefundenen Kurve aus oder keine."},

	"curve.compare":        {"Curves of %s compared", "Courbes de %s comparées", "Curvas de %s comparadas", "Kurven von %s im Vergleich"},
	"curve.none":           {"none", "rien", "nada", "nichts"},
	"curve.row.supply":     {"Supply at %s outdoors", "Départ pour %s dehors", "Impulsión con %s fuera", "Vorlauf bei %s außen"},
	"curve.row.mild":       {"Supply in mild weather, %s", "Départ par temps doux, %s", "Impulsión con tiempo templado, %s", "Vorlauf bei mildem Wetter, %s"},
	"curve.row.needed":     {"needed %s", "besoin %s", "necesario %s", "Bedarf %s"},
	"curve.row.short":      {"Short on the design night", "Manque par la nuit de base", "Falta en la noche de cálculo", "Fehlt in der Auslegungsnacht"},
	"curve.row.excess":     {"Too warm in mild weather, valves open", "De trop par temps doux, vannes ouvertes", "De más con tiempo templado, válvulas abiertas", "Zu warm bei mildem Wetter, Ventile offen"},
	"curve.row.lost":       {"Water above the need, in the mean", "Eau au-dessus du besoin, en moyenne", "Agua por encima de lo necesario, de media", "Wasser über dem Bedarf, im Mittel"},
	"curve.row.heat":       {"Heat made condensing", "Chaleur produite en condensant", "Calor producido condensando", "Wärme mit Brennwert"},
	"curve.row.hours":      {"Hours condensing", "Heures en condensant", "Horas condensando", "Stunden mit Brennwert"},
	"curve.row.efficiency": {"Boiler’s efficiency, gross", "Rendement de la chaudière, PCS", "Rendimiento de la caldera, PCS", "Nutzungsgrad des Kessels, Hs"},

	"curve.limit.down":   {"Held at %[1]s below %[2]s outdoors by %[3]s.", "Retenu à %[1]s sous %[2]s dehors par %[3]s.", "Retenida a %[1]s por debajo de %[2]s fuera por %[3]s.", "Gehalten auf %[1]s unter %[2]s außen durch: %[3]s."},
	"curve.limit.up":     {"Held at %[1]s above %[2]s outdoors: boiler and control go no lower.", "Retenu à %[1]s au-dessus de %[2]s dehors : chaudière et régulation ne descendent pas plus bas.", "Retenida a %[1]s por encima de %[2]s fuera: caldera y regulación no bajan más.", "Gehalten auf %[1]s über %[2]s außen: Kessel und Regelung gehen nicht tiefer."},
	"curve.limit.beyond": {"Runs beyond %[1]s below %[2]s outdoors, the limit of %[3]s.", "Dépasse %[1]s sous %[2]s dehors, la limite de %[3]s.", "Pasa de %[1]s por debajo de %[2]s fuera, el límite de %[3]s.", "Läuft über %[1]s unter %[2]s außen, die Grenze von: %[3]s."},
	"curve.limit.found":  {"As found it runs beyond %[1]s below %[2]s outdoors, the limit of %[3]s.", "La courbe trouvée dépasse %[1]s sous %[2]s dehors, la limite de %[3]s.", "La encontrada pasa de %[1]s por debajo de %[2]s fuera, el límite de %[3]s.", "Die vorgefundene läuft über %[1]s unter %[2]s außen, die Grenze von: %[3]s."},

	"curve.rooms":     {"What each room reaches, valves open", "Ce qu’atteint chaque pièce, vannes ouvertes", "Lo que alcanza cada habitación, válvulas abiertas", "Was jeder Raum erreicht, Ventile offen"},
	"curve.reaches":   {"of %s on the design night", "sur %s par la nuit de base", "de %s en la noche de cálculo", "von %s in der Auslegungsnacht"},
	"curve.sure":      {"In 9 cases of 10: %s to %s.", "Dans 9 cas sur 10 : %s à %s.", "En 9 de 10 casos: %s a %s.", "In 9 von 10 Fällen: %s bis %s."},
	"curve.season":    {"Over the season: %s to %s.", "Sur la saison : %s à %s.", "En la temporada: %s a %s.", "In der Saison: %s bis %s."},
	"curve.needs":     {"Needs %s supply.", "Il faut %s au départ.", "Necesita %s de impulsión.", "Braucht %s Vorlauf."},
	"curve.bands.key": {"Shaded: coolest to warmest of the season. Dot: design night, with its doubt. Dashed: wanted.", "Ombré : du plus frais au plus chaud de la saison. Point : nuit de base, avec son doute. Tireté : voulu.", "Sombreado: de lo más fresco a lo más cálido de la temporada. Punto: noche de cálculo, con su duda. A trazos: lo deseado.", "Schattiert: vom Kühlsten zum Wärmsten der Saison. Punkt: Auslegungsnacht mit Unsicherheit. Gestrichelt: gewünscht."},

	"why.band":  {"In 9 cases of 10 it lies between %s and %s.", "Dans 9 cas sur 10, c’est entre %s et %s.", "En 9 de 10 casos está entre %s y %s.", "In 9 von 10 Fällen liegt es zwischen %s und %s."},
	"why.surer": {"To be surer, measure %s: %s.", "Pour en être plus sûr, mesurer %s : %s.", "Para estar más seguro, medir %s: %s.", "Um sicherer zu sein, messen: %s (%s)."},

	"curve.said":           {"supply %s on the design night", "départ %s par la nuit de base", "impulsión %s en la noche de cálculo", "Vorlauf %s in der Auslegungsnacht"},
	"curve.said.short":     {"%s short by %s", "%s manque de %s", "a %s le faltan %s", "%s fehlen %s"},
	"curve.said.condenses": {"%s of the heat condensing", "%s de la chaleur en condensant", "%s del calor condensando", "%s der Wärme mit Brennwert"},
}
