package words

// habitFields are those of frost and of the hours in which the house may cool.
var habitFields = map[string]field{
	"frost": {
		entry{"Frost", "Gel", "Heladas", "Frost"},
		explained{"ce qui pourrait geler", "lo que podría helarse", "was einfrieren könnte"}},
	"frost.pipes_outside": {
		entry{"Pipes outside the shell", "Tubes hors volume chauffé", "Tubos fuera de la envolvente", "Leitungen im Kalten"},
		explained{"endroits hors du volume chauffé où passent des tubes de chauffage : garage, vide sanitaire, combles", "lugares fuera de la envolvente por donde pasan tubos de calefacción: garaje, cámara sanitaria, desván", "Stellen außerhalb der beheizten Hülle, an denen Heizleitungen liegen: Garage, Kriechkeller, Dachboden"}},
	"frost.glycol": {
		entry{"Glycol", "Glycol", "Glicol", "Glykol"},
		explained{"si l’installation contient du glycol", "si la instalación lleva glicol", "ob die Anlage Glykol enthält"}},
	"frost.room_sensor": {
		entry{"Room sensor", "Sonde d’ambiance", "Sonda ambiente", "Raumfühler"},
		explained{"si la régulation a une sonde ou un boîtier d’ambiance", "si la regulación tiene sonda o unidad de ambiente", "ob die Regelung einen Raumfühler oder ein Raumgerät hat"}},
	"frost.left_alone": {
		entry{"Left alone in winter", "Inoccupée en hiver", "Vacía en invierno", "Im Winter unbewohnt"},
		explained{"si la maison reste vide des jours entiers en hiver", "si la casa queda vacía días enteros en invierno", "ob das Haus im Winter tagelang leer steht"}},
	"program": {
		entry{"Program", "Programme", "Programa", "Zeitprogramm"},
		explained{"quand la maison peut se refroidir", "cuándo puede enfriarse la casa", "wann das Haus abkühlen darf"}},
	"program.wish": {
		entry{"Wish", "Souhait", "Deseo", "Wunsch"},
		explained{"garder une seule température, l’abaisser la nuit, ou l’abaisser la nuit et le jour pendant les absences", "mantener una temperatura, bajarla de noche, o bajarla de noche y de día durante las ausencias", "eine Temperatur halten, nachts absenken, oder nachts und bei Abwesenheit am Tag absenken"}},
	"program.lower": {
		entry{"Lower room temperature", "Température d’abaissement", "Temperatura reducida", "Absenktemperatur"},
		explained{"la température ambiante réduite", "la temperatura ambiente reducida", "die abgesenkte Raumtemperatur"}},
	"program.wake_up": {
		entry{"Warm by", "Chaud à", "Caliente a las", "Warm um"},
		explained{"quand la maison doit être chaude, comme 06:30", "cuándo debe estar caliente la casa, como 06:30", "wann das Haus warm sein soll, wie 06:30"}},
	"program.bed": {
		entry{"May cool from", "Peut baisser dès", "Puede bajar desde", "Darf abkühlen ab"},
		explained{"quand elle peut se refroidir, comme 22:30", "cuándo puede enfriarse, como 22:30", "wann es abkühlen darf, wie 22:30"}},
	"program.leave": {
		entry{"Empty from", "Vide dès", "Vacía desde", "Leer ab"},
		explained{"en cas d’absence : quand la maison se vide, comme 08:00", "con ausencias: cuándo se vacía la casa, como 08:00", "bei Abwesenheit: wann alle gehen, wie 08:00"}},
	"program.return": {
		entry{"Warm again by", "Rechauffée à", "De nuevo caliente a las", "Wieder warm um"},
		explained{"en cas d’absence : quand elle doit être de nouveau chaude, comme 17:00", "con ausencias: cuándo debe estar de nuevo caliente, como 17:00", "bei Abwesenheit: wann es wieder warm sein soll, wie 17:00"}},
}

// controlFields are what is copied from the manual of a control.
var controlFields = map[string]field{
	"control": {
		entry{"Control", "Régulation", "Regulación", "Regelung"},
		explained{"la régulation telle que sa notice la décrit", "la regulación tal como la describe su manual", "die Regelung, wie ihre Anleitung sie beschreibt"}},
	"control.scale": {
		entry{"Scale shown", "Échelle affichée", "Escala mostrada", "Angezeigte Skala"},
		explained{"échelle que la régulation affiche", "escala que muestra la regulación", "Skala, die die Regelung anzeigt"}},
	"control.clock": {
		entry{"Clock", "Heure", "Hora", "Uhr"},
		explained{"comment elle affiche l’heure", "cómo muestra la hora", "wie sie die Zeit anzeigt"}},
	"control.step": {
		entry{"Step of the supply", "Pas du départ", "Paso de la impulsión", "Schritt des Vorlaufs"},
		explained{"plus petit pas d’une température de départ ; 0,5 K (ou 1 °F) à défaut", "paso más pequeño de una temperatura de impulsión; 0,5 K (o 1 °F) si se omite", "kleinster Schritt einer Vorlauftemperatur; 0,5 K (oder 1 °F), wenn nichts gesagt ist"}},
	"control.room_step": {
		entry{"Step of the room temperature", "Pas de l’ambiance", "Paso del ambiente", "Schritt der Raumtemperatur"},
		explained{"plus petit pas d’une température ambiante", "paso más pequeño de una temperatura ambiente", "kleinster Schritt einer Raumtemperatur"}},
	"control.min_supply": {
		entry{"Lowest supply limit", "Limite basse de départ", "Límite inferior de impulsión", "Untere Vorlaufgrenze"},
		explained{"limite de départ la plus basse qu’on peut régler", "límite de impulsión más bajo que se puede ajustar", "niedrigste einstellbare Grenze des Vorlaufs"}},
	"control.max_supply": {
		entry{"Highest supply limit", "Limite haute de départ", "Límite superior de impulsión", "Obere Vorlaufgrenze"},
		explained{"limite de départ la plus haute qu’on peut régler", "límite de impulsión más alto que se puede ajustar", "höchste einstellbare Grenze des Vorlaufs"}},
	"control.curve": {
		entry{"Heating curve", "Courbe de chauffe", "Curva de calefacción", "Heizkurve"},
		explained{"forme de la courbe de chauffe qu’elle peut tenir ; une seule", "forma de la curva de calefacción que puede guardar; una sola", "Form der Heizkurve, die sie halten kann; genau eine"}},
	"control.curve.two_points": {
		entry{"Two points", "Deux points", "Dos puntos", "Zwei Punkte"},
		explained{"droite par un point froid et un point doux", "recta por un punto frío y un punto templado", "Gerade durch einen kalten und einen milden Punkt"}},
	"control.curve.slope_shift": {
		entry{"Slope and shift", "Pente et décalage", "Pendiente y desplazamiento", "Neigung und Verschiebung"},
		explained{"pente et décalage parallèle autour de la consigne d’ambiance", "pendiente y desplazamiento paralelo en torno a la consigna ambiente", "Neigung und Parallelverschiebung um den Raumsollwert"}},
	"control.curve.bent": {
		entry{"Bent curve", "Courbe infléchie", "Curva doblada", "Gekrümmte Kurve"},
		explained{"courbe qu’un exposant infléchit entre un point froid et un point doux", "curva que un exponente dobla entre un punto frío y un punto templado", "Kurve, die ein Exponent zwischen kaltem und mildem Punkt krümmt"}},
	"control.curve.table": {
		entry{"Table of points", "Tableau de points", "Tabla de puntos", "Tabelle von Punkten"},
		explained{"tableau de points, droit entre eux", "tabla de puntos, recta entre ellos", "Tabelle von Punkten, dazwischen gerade"}},
	"control.curve.slope_shift.slope": {
		entry{"Slope", "Pente", "Pendiente", "Neigung"},
		explained{"pente de la courbe", "pendiente de la curva", "Neigung der Kurve"}},
	"control.curve.slope_shift.shift": {
		entry{"Parallel shift", "Décalage parallèle", "Desplazamiento paralelo", "Parallelverschiebung"},
		explained{"décalage parallèle de la courbe", "desplazamiento paralelo de la curva", "Parallelverschiebung der Kurve"}},
	"control.curve.bent.exponent": {
		entry{"Exponent", "Exposant", "Exponente", "Exponent"},
		explained{"exposant : une plage avec un pas, ou une valeur", "exponente: un margen con un paso, o un valor", "Exponent: ein Bereich mit Schritt oder ein Wert"}},
	"control.curve.table.points": {
		entry{"Points it holds", "Nombre de points", "Puntos que guarda", "Zahl der Punkte"},
		explained{"combien de points il contient, de 2 à 12", "cuántos puntos guarda, de 2 a 12", "wie viele Punkte sie fasst, 2 bis 12"}},
	"control.curve.table.outdoor": {
		entry{"Outdoor temperatures", "Températures extérieures", "Temperaturas exteriores", "Außentemperaturen"},
		explained{"plage de ses températures extérieures", "margen de sus temperaturas exteriores", "Bereich ihrer Außentemperaturen"}},
	"control.curve.table.supply": {
		entry{"Supply temperatures", "Températures de départ", "Temperaturas de impulsión", "Vorlauftemperaturen"},
		explained{"plage de ses températures de départ", "margen de sus temperaturas de impulsión", "Bereich ihrer Vorlauftemperaturen"}},
	"control.cut_off": {
		entry{"Warm-weather cut-off", "Température de non-chauffage", "Límite de calefacción", "Heizgrenze"},
		explained{"arrêt du chauffage par temps doux ; à laisser de côté si elle n’en a pas", "parada de la calefacción con tiempo templado; se omite si no la tiene", "Abschaltung bei mildem Wetter; weglassen, wenn es keine gibt"}},
	"control.points_per_day": {
		entry{"Switching points a day", "Commutations par jour", "Conmutaciones al día", "Schaltpunkte am Tag"},
		explained{"nombre de commutations par jour ; 0 sans programme horaire", "número de conmutaciones al día; 0 si no tiene programa", "Schaltpunkte am Tag; 0, wenn sie kein Zeitprogramm hat"}},
	"control.room_influence": {
		entry{"Room influence", "Influence de l’ambiance", "Influencia ambiente", "Raumeinfluss"},
		explained{"si elle peut corriger la courbe par une sonde d’ambiance", "si puede corregir la curva con una sonda ambiente", "ob sie die Kurve nach einem Raumfühler berichtigen kann"}},
	"control.frost_by": {
		entry{"Frost protection watches", "Hors-gel d’après", "Antihielo según", "Frostschutz beachtet"},
		explained{"ce que sa protection hors-gel peut surveiller", "lo que puede vigilar su protección antihielo", "was ihr Frostschutz überwachen kann"}},
	"control.output_limit": {
		entry{"Output limit", "Limite de puissance", "Límite de potencia", "Leistungsbegrenzung"},
		explained{"comment elle limite la puissance de chauffage de la chaudière", "cómo limita la potencia de calefacción de la caldera", "wie sie die Heizleistung des Kessels begrenzt"}},
	"control.circuit_limit": {
		entry{"Limit of each circuit", "Limite par circuit", "Límite por circuito", "Grenze je Heizkreis"},
		explained{"si chaque circuit a sa propre limite haute de départ", "si cada circuito tiene su propio límite superior de impulsión", "ob jeder Heizkreis eine eigene obere Vorlaufgrenze hat"}},
	"control.asks_emitter_kind": {
		entry{"Asks for the emitter", "Demande l’émetteur", "Pregunta por el emisor", "Fragt nach der Heizfläche"},
		explained{"si elle demande le type d’émetteur", "si pregunta por el tipo de emisor", "ob sie nach der Art der Heizfläche fragt"}},
	"control.asks_separator_sensor": {
		entry{"Asks for the separator sensor", "Demande la sonde de bouteille", "Pregunta por la sonda separadora", "Fragt nach dem Weichenfühler"},
		explained{"si elle demande où est la sonde de découplage", "si pregunta dónde está la sonda del separador", "ob sie fragt, wo der Weichenfühler sitzt"}},
}

// pointFields are those of a curve between a cold and a mild point.
var pointFields = map[string]field{
	"cold_outdoor": {
		entry{"Outdoor, cold point", "Extérieur, point froid", "Exterior, punto frío", "Außen, kalter Punkt"},
		explained{"température extérieure du point froid : une plage, ou une valeur si elle est fixe", "temperatura exterior del punto frío: un margen, o un valor si es fijo", "Außentemperatur des kalten Punktes: ein Bereich oder ein Wert, wenn er fest ist"}},
	"mild_outdoor": {
		entry{"Outdoor, mild point", "Extérieur, point doux", "Exterior, punto templado", "Außen, milder Punkt"},
		explained{"température extérieure du point doux", "temperatura exterior del punto templado", "Außentemperatur des milden Punktes"}},
	"cold_supply": {
		entry{"Supply, cold point", "Départ, point froid", "Impulsión, punto frío", "Vorlauf, kalter Punkt"},
		explained{"température de départ au point froid", "temperatura de impulsión en el punto frío", "Vorlauftemperatur am kalten Punkt"}},
	"mild_supply": {
		entry{"Supply, mild point", "Départ, point doux", "Impulsión, punto templado", "Vorlauf, milder Punkt"},
		explained{"température de départ au point doux", "temperatura de impulsión en el punto templado", "Vorlauftemperatur am milden Punkt"}},
	"beyond": {
		entry{"Colder than that", "Plus froid encore", "Con más frío", "Noch kälter"},
		explained{"plus froid que le point froid : la courbe continue, ou garde le départ froid ; elle continue à défaut", "más frío que el punto frío: la curva sigue, o mantiene la impulsión fría; sigue si se omite", "kälter als der kalte Punkt: die Kurve geht weiter oder hält den kalten Vorlauf; sie geht weiter, wenn nichts gesagt ist"}},
}

// spans are the ends and the step of every range that a control can be set in.
var spans = join(
	span("control.curve.two_points.cold_outdoor"), span("control.curve.two_points.mild_outdoor"),
	span("control.curve.two_points.cold_supply"), span("control.curve.two_points.mild_supply"),
	stepped("control.curve.slope_shift.slope"), stepped("control.curve.slope_shift.shift"),
	span("control.curve.bent.cold_outdoor"), span("control.curve.bent.mild_outdoor"),
	span("control.curve.bent.cold_supply"), span("control.curve.bent.mild_supply"),
	stepped("control.curve.bent.exponent"),
	span("control.curve.table.outdoor"), span("control.curve.table.supply"),
	stepped("control.cut_off"),
)

func span(of string) map[string]field {
	return map[string]field{
		of + ".from": {
			entry{"From", "De", "Desde", "Von"},
			explained{"valeur la plus basse", "valor más bajo", "niedrigster Wert"}},
		of + ".to": {
			entry{"To", "À", "Hasta", "Bis"},
			explained{"valeur la plus haute", "valor más alto", "höchster Wert"}},
	}
}

func stepped(of string) map[string]field {
	return join(span(of), map[string]field{of + ".step": {
		entry{"Step", "Pas", "Paso", "Schritt"},
		explained{"pas du réglage", "paso del ajuste", "Schritt der Einstellung"}}})
}
