package words

// engineDrive are the sentences beside pumps: one that is too weak, one of several circuits.
var engineDrive = map[string]wording{
	"Reckoned with %s in %v, all that its pump gives.": {
		"Calculé avec %s dans %s, tout ce que donne son circulateur.", "Calculado con %s en %s, todo lo que da su bomba.", "Gerechnet mit %s in %s, allem, was die Pumpe gibt."},
	"Reckoned with %s in %v, all that its pump gives; with %s it could be %s.": {
		"Calculé avec %s dans %s, tout ce que donne son circulateur ; avec %s ce pourrait être %s.", "Calculado con %s en %s, todo lo que da su bomba; con %s podría ser %s.", "Gerechnet mit %s in %s, allem, was die Pumpe gibt; mit %s könnten es %s sein."},
	"All that its pump gives; %s is wanted.": {
		"Tout ce que donne son circulateur ; il faudrait %s.", "Todo lo que da su bomba; harían falta %s.", "Alles, was die Pumpe gibt; gewünscht sind %s."},
	"At full speed %v gets %s of the %s wanted, with a drop of %s on the design day.": {
		"À pleine vitesse %s reçoit %s des %s voulus, avec une chute de %s le jour de base.", "A velocidad máxima %s recibe %s de los %s deseados, con un salto de %s el día de proyecto.", "Mit voller Drehzahl bekommt %s %s der gewünschten %s, mit einer Spreizung von %s am Auslegungstag."},
	"With that %v needs %s of supply on the design day instead of %s.": {
		"Ainsi %s demande %s au départ le jour de base au lieu de %s.", "Así %s necesita %s de impulsión el día de proyecto en vez de %s.", "Damit braucht %s am Auslegungstag %s Vorlauf statt %s."},
	"With that no water of a house is hot enough for %v; with the flow wanted %s would be.": {
		"Ainsi aucune eau de chauffage n’est assez chaude pour %s ; avec le débit voulu, %s suffiraient.", "Así ninguna agua de calefacción es bastante caliente para %s; con el caudal deseado bastarían %s.", "Damit ist kein Heizwasser heiß genug für %s; mit dem gewünschten Durchfluss genügten %s."},
	"The supply that %v needs hardly rises by it.": {
		"Le départ que demande %s n’en monte guère.", "La impulsión que necesita %s apenas sube por ello.", "Der Vorlauf, den %s braucht, steigt davon kaum."},
	"What its circuits take at %s; the survey has no pump curve, so set it by the drop.": {
		"Ce que demandent ses circuits à %s ; sans courbe de circulateur au relevé, réglez par la chute.", "Lo que piden sus circuitos a %s; la inspección no tiene curva de bomba: ajústela por el salto.", "Was ihre Heizkreise bei %s brauchen; ohne Kennlinie in der Aufnahme nach der Spreizung einstellen."},
	"Even there the pump makes more than the %s that its circuits take at %s.": {
		"Même là, le circulateur donne plus que les %s que demandent ses circuits à %s.", "Incluso ahí la bomba da más que los %s que piden sus circuitos a %s.", "Selbst dort schafft die Pumpe mehr als die %s, die ihre Heizkreise bei %s brauchen."},
	"The pump of %v is larger than its circuits: %s at %s is less than its curve goes down to.": {
		"Le circulateur de %s est trop grand pour ses circuits : %s à %s est en dessous du bas de sa courbe.", "La bomba de %s es mayor que sus circuitos: %s a %s queda por debajo de su curva.", "Die Pumpe von %s ist größer als ihre Heizkreise: %s bei %s liegt unter dem, was ihre Kennlinie hergibt."},
	"Gives %s against what its circuits take, and holds it when valves close.": {
		"Donne %s contre ce que demandent ses circuits, et le tient quand des vannes ferment.", "Da %s contra lo que piden sus circuitos, y lo mantiene cuando cierran válvulas.", "Gibt %s gegen das, was ihre Heizkreise brauchen, und hält es, wenn Ventile schließen."},
	"The pump of %v cannot be set: not all of their pipes are in the survey.": {
		"Le circulateur de %s ne peut être réglé : il manque des tuyaux au relevé.", "La bomba de %s no puede ajustarse: faltan tubos en la inspección.", "Die Pumpe von %s lässt sich nicht einstellen: es fehlen Rohre in der Aufnahme."},
	"the pipes of %v in the survey": {"les tuyaux de %s au relevé", "los tubos de %s en la inspección", "die Rohre von %s in der Aufnahme"},
	"One pump drives these circuits: each takes what the hardest takes, and that one stays fully open.": {
		"Un seul circulateur pour ces circuits : chacun prend ce que demande le plus résistant, qui reste grand ouvert.", "Una sola bomba mueve estos circuitos: cada uno toma lo que pide el más difícil, que queda del todo abierto.", "Eine Pumpe treibt diese Heizkreise: jeder nimmt, was der schwerste braucht, und der bleibt ganz offen."},
	"A valve too far open takes the water of the other circuit.": {"Une vanne trop ouverte prend l’eau de l’autre circuit.", "Una válvula demasiado abierta toma el agua del otro circuito.", "Ein zu weit offenes Ventil nimmt dem anderen Heizkreis das Wasser."},
	"A valve too far closed starves its own circuit.":            {"Une vanne trop fermée affame son propre circuit.", "Una válvula demasiado cerrada deja sin agua su circuito.", "Ein zu weit geschlossenes Ventil lässt den eigenen Heizkreis hungern."},
	"With no valve set %v gets %s instead of %s.":                {"Sans vanne réglée %s reçoit %s au lieu de %s.", "Sin válvula ajustada %s recibe %s en vez de %s.", "Ohne eingestelltes Ventil bekommt %s %s statt %s."},
	"open for %v":                         {"ouverte pour %s", "abierta para %s", "offen für %s"},
	"kv\u00a0%s for %v":                   {"kv\u00a0%s pour %s", "kv\u00a0%s para %s", "kv\u00a0%s für %s"},
	"Cv\u00a0%s for %v":                   {"Cv\u00a0%s pour %s", "Cv\u00a0%s para %s", "Cv\u00a0%s für %s"},
	"Water that the pump really gives %v": {"Eau que le circulateur donne vraiment à %s", "Agua que la bomba da de verdad a %s", "Wasser, das die Pumpe %s wirklich gibt"},
	"Circuits left open":                  {"Circuits laissés ouverts", "Circuitos dejados abiertos", "Heizkreise offen gelassen"},
	"water wanted":                        {"débit voulu", "caudal deseado", "gewünschter Durchfluss"},
	"drop with the water that passes":     {"chute avec l’eau qui passe", "salto con el agua que pasa", "Spreizung mit dem Wasser, das fließt"},
	"across all circuits on the pump":     {"aux bornes de tous les circuits du circulateur", "en todos los circuitos de la bomba", "über alle Heizkreise an der Pumpe"},
	"of %v itself":                        {"de %s même", "de %s mismo", "von %s selbst"},
	"for the valve of %v":                 {"pour la vanne de %s", "para la válvula de %s", "für das Ventil von %s"},
	"that %v wants":                       {"voulue par %s", "que quiere %s", "das %s möchte"},
	"the pump is too weak: needs, curve, return and condensing are reckoned with this water": {
		"le circulateur est trop faible : besoins, courbe, retour et condensation sont calculés avec cette eau", "la bomba es demasiado débil: necesidades, curva, retorno y condensación se calculan con esta agua", "die Pumpe ist zu schwach: Bedarf, Kurve, Rücklauf und Brennwertnutzung sind mit diesem Wasser gerechnet"},
	"the pump is taken to give no more than at the last point of its curve": {
		"on compte que le circulateur ne donne pas plus qu’au dernier point de sa courbe", "se supone que la bomba no da más que en el último punto de su curva", "angenommen ist, dass die Pumpe nicht mehr gibt als am letzten Punkt ihrer Kennlinie"},
	"on the pump of %v": {"sur le circulateur de %s", "con la bomba de %s", "an der Pumpe von %s"},

	"cannot drive a mixed circuit":                           {"ne peut entraîner un circuit mélangé", "no puede mover un circuito mezclado", "kann keinen gemischten Heizkreis antreiben"},
	"nothing: behind its valve it has a pump of its own":     {"rien : derrière sa vanne il a son propre circulateur", "nada: tras su válvula tiene su propia bomba", "nichts: hinter seinem Mischer hat er eine eigene Pumpe"},
	"is given beside pump_of, which says that there is none": {"est donné avec pump_of, qui dit qu’il n’y en a pas", "se da junto a pump_of, que dice que no la hay", "steht neben pump_of, wonach es keine gibt"},
	"is the circuit itself":                                  {"est le circuit lui-même", "es el propio circuito", "ist der Heizkreis selbst"},
	"another circuit, or nothing":                            {"un autre circuit, ou rien", "otro circuito, o nada", "ein anderer Heizkreis oder nichts"},
	"is a mixed circuit, whose pump stands behind its valve": {"est un circuit mélangé, dont le circulateur est derrière la vanne", "es un circuito mezclado, cuya bomba está tras la válvula", "ist ein gemischter Heizkreis, dessen Pumpe hinter dem Mischer sitzt"},
	"a direct circuit":                                       {"un circuit direct", "un circuito directo", "ein direkter Heizkreis"},
	"has no pump of its own":                                 {"n’a pas son propre circulateur", "no tiene bomba propia", "hat keine eigene Pumpe"},
	"%v, or another circuit with a pump":                     {"%s, ou un autre circuit avec circulateur", "%s, u otro circuito con bomba", "%s oder ein anderer Heizkreis mit Pumpe"},
}
