package words

// engineVisitMore is what a visit says beside its steps: readings that only photographs
// name, how the burner's pattern is worked out, and two faults at once.
var engineVisitMore = map[string]wording{
	// A log or a remark in a file with everything.
	"%v: its rows are missing in the archive.": {"%s : ses lignes manquent dans l’archive.", "%s: faltan sus filas en el archivo.", "%s: Ihre Zeilen fehlen im Archiv."},
	"this is no log: %v":                       {"ce n’est pas un enregistrement : %s", "esto no es un registro: %s", "das ist keine Aufzeichnung: %s"},
	"this log has no name":                     {"cet enregistrement n’a pas de nom", "este registro no tiene nombre", "diese Aufzeichnung hat keinen Namen"},
	"this is no remark: %v":                    {"ce n’est pas une remarque : %s", "esto no es un comentario: %s", "das ist keine Bemerkung: %s"},

	"outdoor temperature in the shade": {"température extérieure à l’ombre", "temperatura exterior a la sombra", "Außentemperatur im Schatten"},
	"at %s of hot water":               {"à %s d’eau chaude", "al %s de agua caliente", "bei %s heißem Wasser"},
	"pump head":                        {"hauteur du circulateur", "presión de la bomba", "Förderhöhe der Pumpe"},
	"Pump head":                        {"Hauteur du circulateur", "Presión de la bomba", "Förderhöhe der Pumpe"},
	"pump head of %v":                  {"hauteur du circulateur de %s", "presión de la bomba de %s", "Förderhöhe der Pumpe von %s"},
	"pressure drop of the filter":      {"perte de charge du filtre", "pérdida de carga del filtro", "Druckabfall am Filter"},
	"difference of pressure across its pump, by gauges or as the pump shows it": {"différence de pression aux bornes du circulateur, par manomètres ou affichée par lui", "diferencia de presión en su bomba, con manómetros o según la muestra la bomba", "Druckunterschied an seiner Pumpe, mit Manometern oder wie die Pumpe ihn anzeigt"},
	"difference of pressure across filter and dirt separator, pumps running":    {"différence de pression au filtre et au pot à boues, circulateurs en marche", "diferencia de presión en el filtro y el separador de lodos, con las bombas en marcha", "Druckunterschied an Filter und Schlammabscheider bei laufenden Pumpen"},
	"a clean filter takes a tenth of the head; turbulent":                       {"un filtre propre prend un dixième de la hauteur ; turbulent", "un filtro limpio toma una décima parte de la presión; turbulento", "ein sauberer Filter nimmt ein Zehntel der Förderhöhe; turbulent"},
	"most head of a circuit":         {"plus grande hauteur d’un circuit", "mayor presión de un circuito", "größte Förderhöhe eines Kreises"},
	"the pump set as the sheet says": {"circulateur réglé selon la feuille", "la bomba ajustada según la hoja", "Pumpe wie auf dem Blatt eingestellt"},
	"pipes and loops as surveyed":    {"tuyauteries et boucles telles que relevées", "tuberías y lazos según la inspección", "Rohre und Schleifen wie aufgenommen"},
	"Water that freezes bursts pipes and boiler: never leave a filled house without heat in frost.": {"L’eau qui gèle fait éclater tuyaux et chaudière : ne jamais laisser une maison remplie sans chaleur par gel.", "El agua que se hiela revienta tuberías y caldera: no deje nunca una casa llena sin calor con heladas.", "Wasser, das gefriert, sprengt Rohre und Kessel: ein gefülltes Haus bei Frost nie ohne Wärme lassen."},
	"at %s":            {"à %s", "a %s", "bei %s"},
	"resistance of %v": {"résistance de %s", "resistencia de %s", "Widerstand von %s"},
	"a mixing valve keeps its circuit out of the swing; sensor delay not counted": {"une vanne de mélange garde son circuit hors de l’oscillation ; retard de sonde non compté", "una válvula mezcladora deja su circuito fuera de la oscilación; retardo de sonda sin contar", "ein Mischer hält seinen Kreis aus der Schwankung heraus; Fühlerverzug nicht gerechnet"},
	"heat balance of boiler and emitters":                                         {"bilan thermique de la chaudière et des émetteurs", "balance térmico de la caldera y los emisores", "Wärmebilanz von Kessel und Heizflächen"},
}
