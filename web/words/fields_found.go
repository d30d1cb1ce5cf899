package words

// foundFields are those of the control as it stood when somebody came.
var foundFields = map[string]field{
	"as_found": {
		entry{"The control as found", "La régulation telle que trouvée", "La regulación como se encontró", "Die Regelung, wie vorgefunden"},
		explained{"ce qui était réglé à l’arrivée de l’installateur", "lo que estaba ajustado cuando llegó el instalador", "was eingestellt war, als der Installateur kam"}},
	"as_found.curves": {
		entry{"Curves", "Courbes", "Curvas", "Heizkurven"},
		explained{"la courbe de chaque circuit, telle que trouvée", "la curva de cada circuito, tal como se encontró", "die Heizkurve jedes Heizkreises, wie vorgefunden"}},
	"as_found.curves[]": {label: entry{"Curve", "Courbe", "Curva", "Heizkurve"}},
	"as_found.curves[].circuit": {
		entry{"Circuit", "Circuit", "Circuito", "Heizkreis"},
		explained{"nom du circuit ; nécessaire s’il y en a plusieurs", "nombre del circuito; necesario si hay varios", "Name des Heizkreises; nötig, wenn es mehrere gibt"}},
	"as_found.curves[].preset": {
		entry{"Left as it came", "Laissée d’usine", "Dejada de fábrica", "Wie geliefert"},
		explained{"laissée comme les régulations sont livrées d’ordinaire : 75 °C à −10 °C pour radiateurs et plinthes, 45 °C à −10 °C pour planchers chauffants", "dejada como suelen venir las regulaciones: 75 °C a −10 °C para radiadores y zócalos, 45 °C a −10 °C para suelos radiantes", "gelassen, wie Regelungen meist geliefert werden: 75 °C bei −10 °C für Heizkörper und Sockelleisten, 45 °C bei −10 °C für Fußbodenheizungen"}},
	"as_found.curves[].held": {
		entry{"Supply held", "Départ fixe", "Impulsión fija", "Fester Vorlauf"},
		explained{"température de départ tenue quel que soit le temps", "temperatura de impulsión mantenida haga el tiempo que haga", "Vorlauftemperatur, die bei jedem Wetter gehalten wurde"}},
	"as_found.curves[].cold_outdoor": {
		entry{"Outdoor, cold point", "Extérieur, point froid", "Exterior, punto frío", "Außen, kalter Punkt"},
		explained{"température extérieure du point froid", "temperatura exterior del punto frío", "Außentemperatur des kalten Punktes"}},
	"as_found.curves[].cold_supply": {
		entry{"Supply, cold point", "Départ, point froid", "Impulsión, punto frío", "Vorlauf, kalter Punkt"},
		explained{"départ à ce point", "impulsión en ese punto", "Vorlauf an diesem Punkt"}},
	"as_found.curves[].mild_outdoor": {
		entry{"Outdoor, mild point", "Extérieur, point doux", "Exterior, punto templado", "Außen, milder Punkt"},
		explained{"température extérieure du point doux", "temperatura exterior del punto templado", "Außentemperatur des milden Punktes"}},
	"as_found.curves[].mild_supply": {
		entry{"Supply, mild point", "Départ, point doux", "Impulsión, punto templado", "Vorlauf, milder Punkt"},
		explained{"départ à ce point", "impulsión en ese punto", "Vorlauf an diesem Punkt"}},
	"as_found.curves[].exponent": {
		entry{"Exponent", "Exposant", "Exponente", "Exponent"},
		explained{"exposant, si la courbe était cintrée entre ses deux points", "exponente, si la curva estaba doblada entre sus dos puntos", "Exponent, wenn die Kurve zwischen ihren zwei Punkten gebogen war"}},
	"as_found.curves[].slope": {
		entry{"Slope", "Pente", "Pendiente", "Steilheit"},
		explained{"pente", "pendiente", "Steilheit"}},
	"as_found.curves[].shift": {
		entry{"Parallel shift", "Décalage parallèle", "Desplazamiento paralelo", "Parallelverschiebung"},
		explained{"décalage parallèle ; aucun à défaut", "desplazamiento paralelo; ninguno si se omite", "Parallelverschiebung; keine, wenn nichts gesagt ist"}},
	"as_found.curves[].points": {
		entry{"Points of a table", "Points d’un tableau", "Puntos de una tabla", "Punkte einer Tabelle"},
		explained{"points d’un tableau, du froid au doux", "puntos de una tabla, de frío a templado", "Punkte einer Tabelle, von kalt nach mild"}},
	"as_found.curves[].points[]": {label: entry{"Point", "Point", "Punto", "Punkt"}},
	"as_found.curves[].points[].outdoor": {
		entry{"Outdoor", "Extérieur", "Exterior", "Außen"},
		explained{"température extérieure", "temperatura exterior", "Außentemperatur"}},
	"as_found.curves[].points[].supply": {
		entry{"Supply", "Départ", "Impulsión", "Vorlauf"},
		explained{"départ à ce point", "impulsión en ese punto", "Vorlauf an diesem Punkt"}},
	"as_found.curves[].min_supply": {
		entry{"Lowest supply", "Départ minimal", "Impulsión mínima", "Niedrigster Vorlauf"},
		explained{"départ minimal qui était réglé", "impulsión mínima que estaba ajustada", "niedrigster Vorlauf, der eingestellt war"}},
	"as_found.curves[].max_supply": {
		entry{"Highest supply", "Départ maximal", "Impulsión máxima", "Höchster Vorlauf"},
		explained{"départ maximal qui était réglé", "impulsión máxima que estaba ajustada", "höchster Vorlauf, der eingestellt war"}},
	"as_found.cut_off": {
		entry{"Warm-weather cut-off", "Température de non-chauffage", "Límite de calefacción", "Heizgrenze"},
		explained{"température extérieure au-dessus de laquelle elle ne chauffait plus ; toute l’année à défaut", "temperatura exterior por encima de la cual no calentaba; todo el año si se omite", "Außentemperatur, über der sie nicht mehr heizte; das ganze Jahr, wenn nichts gesagt ist"}},
	"as_found.lower": {
		entry{"Lowered room temperature", "Température d’abaissement", "Temperatura reducida", "Absenktemperatur"},
		explained{"température ambiante pendant l’abaissement ; jamais abaissée à défaut", "temperatura ambiente durante la reducción; nunca reducida si se omite", "Raumtemperatur während der Absenkung; nie abgesenkt, wenn nichts gesagt ist"}},
	"as_found.lowered_from": {
		entry{"Lowered from", "Abaissée dès", "Reducida desde", "Abgesenkt ab"},
		explained{"début de l’abaissement, comme 22:00", "comienzo de la reducción, como 22:00", "Beginn der Absenkung, wie 22:00"}},
	"as_found.lowered_to": {
		entry{"Lowered until", "Abaissée jusqu’à", "Reducida hasta", "Abgesenkt bis"},
		explained{"fin de l’abaissement, comme 06:00", "fin de la reducción, como 06:00", "Ende der Absenkung, wie 06:00"}},
	"as_found.output_limit": {
		entry{"Limit of the output", "Limite de la puissance", "Límite de la potencia", "Begrenzung der Heizleistung"},
		explained{"limite de la puissance de chauffage ; aucune à défaut", "límite de la potencia de calefacción; ninguno si se omite", "Begrenzung der Heizleistung; keine, wenn nichts gesagt ist"}},
	"as_found.differential": {
		entry{"Burner’s differential", "Différentiel du brûleur", "Diferencial del quemador", "Schaltdifferenz des Brenners"},
		explained{"entre l’arrêt du brûleur et son démarrage suivant ; celui de la chaudière à défaut", "entre la parada del quemador y su arranque siguiente; el de la caldera si se omite", "zwischen dem Abschalten des Brenners und seinem nächsten Start; die des Kessels, wenn nichts gesagt ist"}},
	"as_found.least_rest": {
		entry{"Shortest rest of the burner", "Pause minimale du brûleur", "Pausa mínima del quemador", "Kürzeste Pause des Brenners"},
		explained{"pause minimale du brûleur ; 5 min à défaut", "pausa mínima del quemador; 5 min si se omite", "kürzeste Pause des Brenners; 5 min, wenn nichts gesagt ist"}},
	"as_found.hot_water": {
		entry{"Hot water set-point", "Consigne d’eau chaude", "Consigna de agua caliente", "Sollwert des Warmwassers"},
		explained{"consigne d’eau chaude ; celle de la feuille à défaut", "consigna de agua caliente; la de la hoja si se omite", "Sollwert des Warmwassers; der des Blatts, wenn nichts gesagt ist"}},
	"as_found.hot_water_differential": {
		entry{"Hot water differential", "Différentiel d’eau chaude", "Diferencial de agua caliente", "Schaltdifferenz des Warmwassers"},
		explained{"écart sous la consigne auquel une charge commençait", "diferencia por debajo de la consigna a la que empezaba una carga", "so weit unter dem Sollwert begann eine Ladung"}},
	"as_found.priority": {
		entry{"Hot water priority", "Priorité à l’eau chaude", "Prioridad del agua caliente", "Warmwasservorrang"},
		explained{"si le chauffage attendait pendant la charge du ballon", "si la calefacción esperaba mientras se cargaba el acumulador", "ob die Heizung wartete, während der Speicher geladen wurde"}},
	"as_found.frost_outdoor": {
		entry{"Frost protection, outdoor", "Hors-gel, extérieur", "Antihielo, exterior", "Frostschutz, außen"},
		explained{"protection contre le gel par la sonde extérieure ; aucune à défaut", "protección antihielo por la sonda exterior; ninguna si se omite", "Frostschutz nach dem Außenfühler; keiner, wenn nichts gesagt ist"}},
	"as_found.frost_room": {
		entry{"Frost protection, room", "Hors-gel, ambiance", "Antihielo, ambiente", "Frostschutz, Raum"},
		explained{"protection contre le gel par une sonde d’ambiance ; aucune à défaut", "protección antihielo por una sonda ambiente; ninguna si se omite", "Frostschutz nach einem Raumfühler; keiner, wenn nichts gesagt ist"}},
}
