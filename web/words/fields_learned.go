package words

// learnedFields are those of what a log has taught.
var learnedFields = map[string]field{
	"learned": {
		entry{"Learned from a log", "Appris d’un enregistrement", "Aprendido de un registro", "Aus einer Aufzeichnung gelernt"},
		explained{"ce qu’un enregistrement de la maison a appris sur le relevé", "lo que un registro de la casa ha enseñado sobre la inspección", "was eine Aufzeichnung aus dem Haus über die Aufnahme gelehrt hat"}},
	"learned.from": {
		entry{"Log", "Enregistrement", "Registro", "Aufzeichnung"},
		explained{"l’enregistrement qui l’a appris", "el registro que lo ha enseñado", "die Aufzeichnung, aus der es stammt"}},
	"learned.until": {
		entry{"Last day of the log", "Dernier jour de l’enregistrement", "Último día del registro", "Letzter Tag der Aufzeichnung"},
		explained{"dernier jour de cet enregistrement, comme 2027-02-14", "último día de ese registro, como 2027-02-14", "letzter Tag dieser Aufzeichnung, wie 2027-02-14"}},
	"learned.loss": {
		entry{"Factor on the heat loss", "Facteur sur les déperditions", "Factor sobre las pérdidas", "Faktor auf den Wärmeverlust"},
		explained{"facteur sur les déperditions du relevé", "factor sobre las pérdidas de la inspección", "Faktor auf den Wärmeverlust der Aufnahme"}},
	"learned.loss_doubt": {
		entry{"Doubt left of it", "Doute qui en reste", "Duda que queda", "Verbleibender Zweifel"},
		explained{"doute qui en reste : un écart type, en part", "duda que queda: una desviación típica, en parte", "Zweifel, der daran bleibt: eine Standardabweichung, als Anteil"}},
	"learned.emitters": {
		entry{"Emitters", "Émetteurs", "Emisores", "Heizflächen"},
		explained{"facteurs sur les émetteurs, circuit par circuit", "factores sobre los emisores, circuito por circuito", "Faktoren auf die Heizflächen, Heizkreis für Heizkreis"}},
	"learned.emitters[]": {label: entry{"Emitters of a circuit", "Émetteurs d’un circuit", "Emisores de un circuito", "Heizflächen eines Heizkreises"}},
	"learned.emitters[].circuit": {
		entry{"Circuit", "Circuit", "Circuito", "Heizkreis"},
		explained{"nom du circuit", "nombre del circuito", "Name des Heizkreises"}},
	"learned.emitters[].factor": {
		entry{"Factor on their output", "Facteur sur leur puissance", "Factor sobre su potencia", "Faktor auf ihre Leistung"},
		explained{"facteur sur la puissance des émetteurs relevés", "factor sobre la potencia de los emisores inspeccionados", "Faktor auf die Leistung der aufgenommenen Heizflächen"}},
	"learned.emitters[].doubt": {
		entry{"Doubt left of it", "Doute qui en reste", "Duda que queda", "Verbleibender Zweifel"},
		explained{"doute qui en reste : un écart type, en part", "duda que queda: una desviación típica, en parte", "Zweifel, der daran bleibt: eine Standardabweichung, als Anteil"}},
}
