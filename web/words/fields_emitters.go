package words

// emitterFields are those of an emitter, in a room or in a circuit of the short way.
var emitterFields = map[string]field{
	"name": {
		entry{"Name", "Nom", "Nombre", "Name"},
		explained{"comment l’appeler", "cómo llamarlo", "wie sie heißen soll"}},
	"circuit": {
		entry{"Circuit", "Circuit", "Circuito", "Heizkreis"},
		explained{"circuit qui l’alimente ; à dire s’il y en a plusieurs", "circuito que lo alimenta; hay que decirlo si hay varios", "Heizkreis, der sie speist; nötig, wo es mehrere gibt"}},
	"count": {
		entry{"How many alike", "Nombre d’identiques", "Cuántos iguales", "Wie viele gleiche"},
		explained{"combien d’émetteurs identiques ; 1 à défaut", "cuántos emisores iguales; 1 si se omite", "wie viele gleiche; 1, wenn nichts gesagt ist"}},
	"carries": {
		entry{"Share of the room’s load", "Part de la pièce", "Parte de la carga", "Anteil an der Heizlast"},
		explained{"part des déperditions de la pièce, si deux circuits la chauffent", "parte de la carga de la habitación, si la calientan dos circuitos", "Anteil an der Heizlast des Raumes, wenn zwei Heizkreise ihn speisen"}},

	"fin_tube": {
		entry{"Fin-tube baseboard", "Plinthe à ailettes", "Zócalo de tubo aleteado", "Sockelheizleiste"},
		explained{"plinthe chauffante à tube à ailettes", "zócalo radiante de tubo con aletas", "Sockelheizleiste mit Rippenrohr"}},
	"fin_tube.length": {
		entry{"Finned length", "Longueur à ailettes", "Longitud aleteada", "Berippte Länge"},
		explained{"longueur du tube à ailettes, non celle de l’habillage", "longitud del tubo aleteado, no la de la carcasa", "Länge des berippten Rohres, nicht die der Verkleidung"}},
	"fin_tube.output": {
		entry{"Rated output per length", "Puissance par longueur", "Potencia por longitud", "Leistung je Länge"},
		explained{"puissance nominale par mètre ; 538 W/m à 82 °C à défaut", "potencia nominal por metro; 538 W/m a 82 °C si se omite", "Nennleistung je Meter; 538 W/m bei 82 °C, wenn nichts gesagt ist"}},
	"fin_tube.at": {
		entry{"Rated at", "Température nominale", "Temperatura nominal", "Nenntemperatur"},
		explained{"température moyenne de l’eau pour cette puissance ; 82 °C à défaut", "temperatura media del agua de esa potencia; 82 °C si se omite", "mittlere Wassertemperatur der Nennleistung; 82 °C, wenn nichts gesagt ist"}},
	"fin_tube.rated_flow": {
		entry{"Rated flow", "Débit nominal", "Caudal nominal", "Nenndurchfluss"},
		explained{"débit d’eau pour cette puissance ; 3,8 L/min à défaut", "caudal de agua de esa potencia; 3,8 L/min si se omite", "Wasserdurchfluss der Nennleistung; 3,8 L/min, wenn nichts gesagt ist"}},
	"fin_tube.heating_effect": {
		entry{"Heating-effect allowance", "Majoration de 15 %", "Suplemento del 15 %", "Zuschlag von 15 %"},
		explained{"si la puissance annoncée comprend la majoration de 15 % (« heating effect ») ; oui à défaut", "si la potencia declarada lleva el suplemento del 15 % («heating effect»); sí si se omite", "ob die angegebene Leistung den Zuschlag von 15 % („heating effect“) enthält; ja, wenn nichts gesagt ist"}},
	"fin_tube.air_at_floor": {
		entry{"Air at the floor", "Air au sol", "Aire junto al suelo", "Luft am Boden"},
		explained{"de combien l’air qui y entre est plus froid que la pièce ; 2,8 K à défaut", "cuánto más frío que la habitación es el aire que entra; 2,8 K si se omite", "um wie viel die eintretende Luft kühler ist als der Raum; 2,8 K, wenn nichts gesagt ist"}},

	"cast_iron": {
		entry{"Cast-iron radiator", "Radiateur en fonte", "Radiador de hierro fundido", "Gussheizkörper"},
		explained{"radiateur en fonte, mesuré en EDR", "radiador de hierro fundido, medido en EDR", "Gussheizkörper, bemessen in EDR"}},
	"cast_iron.edr": {
		entry{"Rating", "Valeur EDR", "Valor EDR", "EDR-Wert"},
		explained{"surface de rayonnement équivalente (EDR)", "superficie de radiación equivalente (EDR)", "gleichwertige Strahlungsfläche (EDR)"}},

	"radiator": {
		entry{"Radiator or convector", "Radiateur ou convecteur", "Radiador o convector", "Heizkörper oder Konvektor"},
		explained{"radiateur ou convecteur selon EN 442", "radiador o convector según EN 442", "Heizkörper oder Konvektor nach EN 442"}},
	"radiator.output":      radiatorOutput,
	"radiator.per_length":  radiatorPerLength,
	"radiator.length":      radiatorLength,
	"radiator.per_section": radiatorPerSection,
	"radiator.sections":    radiatorSections,
	"radiator.at":          radiatorAt,
	"radiator.air":         radiatorAir,
	"radiator.excess":      radiatorExcess,
	"radiator.exponent":    radiatorExponent,
	"radiator.kind":        radiatorKind,
	"towel_rail": {
		entry{"Towel rail", "Sèche-serviettes", "Radiador toallero", "Handtuchheizkörper"},
		explained{"sèche-serviettes selon EN 442", "radiador toallero según EN 442", "Handtuchheizkörper nach EN 442"}},
	"towel_rail.output":      radiatorOutput,
	"towel_rail.per_length":  radiatorPerLength,
	"towel_rail.length":      radiatorLength,
	"towel_rail.per_section": radiatorPerSection,
	"towel_rail.sections":    radiatorSections,
	"towel_rail.at":          radiatorAt,
	"towel_rail.air":         radiatorAir,
	"towel_rail.excess":      radiatorExcess,
	"towel_rail.exponent":    radiatorExponent,
	"towel_rail.kind":        radiatorKind,

	"floor": {
		entry{"Heated floor", "Plancher chauffant", "Suelo radiante", "Fußbodenheizung"},
		explained{"plancher chauffant", "suelo radiante", "Fußbodenheizung"}},
	"floor.construction": {
		entry{"How it is built", "Mise en œuvre", "Sistema constructivo", "Bauart"},
		explained{"comment le plancher est fait", "cómo está construido el suelo", "wie der Boden aufgebaut ist"}},
	"floor.area": {
		entry{"Heated area", "Surface chauffante", "Superficie emisora", "Heizfläche"},
		explained{"surface chauffante, sans ce qui est sous les meubles fixes", "superficie emisora, sin lo que queda bajo muebles fijos", "beheizte Fläche, ohne das, was unter festen Möbeln liegt"}},
	"floor.spacing": {
		entry{"Tube spacing", "Pas de pose", "Paso de tubo", "Verlegeabstand"},
		explained{"distance entre les tubes", "distancia entre tubos", "Abstand der Rohre"}},
	"floor.tube": {
		entry{"Tube outside diameter", "Diamètre extérieur du tube", "Diámetro exterior del tubo", "Außendurchmesser des Rohres"},
		explained{"diamètre extérieur du tube, mesuré ; pour la dimension imprimée dessus, la taille de vente", "diámetro exterior del tubo, medido; para la medida impresa, la medida de venta", "Außendurchmesser des Rohres, gemessen; für das aufgedruckte Maß das Verkaufsmaß"}},
	"floor.tube_size": {
		entry{"Tube size as sold", "Taille de vente du tube", "Medida de venta del tubo", "Verkaufsmaß des Rohres"},
		explained{"dimension sous laquelle le tube est vendu, au lieu du diamètre et de l’épaisseur : 1/2 pour un PEX de 5/8 in extérieur, 16x2 en millimètres", "medida con que se vende el tubo, en lugar de diámetro y espesor: 1/2 para PEX de 5/8 in exterior, 16x2 en milímetros", "Maß, unter dem das Rohr verkauft wird, statt Durchmesser und Wand: 1/2 für PEX mit 5/8 in außen, 16x2 in Millimetern"}},
	"floor.tube_wall": {
		entry{"Tube wall thickness", "Épaisseur du tube", "Espesor del tubo", "Wanddicke des Rohres"},
		explained{"épaisseur de la paroi du tube", "espesor de la pared del tubo", "Dicke der Rohrwand"}},
	"floor.tube_material": {
		entry{"Tube material", "Matière du tube", "Material del tubo", "Material des Rohres"},
		explained{"matière du tube", "material del tubo", "woraus das Rohr besteht"}},
	"floor.cover": {
		entry{"Cover of the tube", "Enrobage du tube", "Recubrimiento del tubo", "Überdeckung des Rohres"},
		explained{"ce qui se trouve au-dessus du tube, sans le revêtement : chape, dalle ou panneau", "lo que hay sobre el tubo, sin el revestimiento: mortero, losa o tablero", "was über dem Rohr liegt, ohne den Belag: Estrich, Platte oder Dielung"}},
	"floor.conductivity": {
		entry{"Conductivity of the cover", "Conductivité de l’enrobage", "Conductividad del recubrimiento", "Leitfähigkeit der Überdeckung"},
		explained{"conductivité thermique de cet enrobage", "conductividad térmica de ese recubrimiento", "Wärmeleitfähigkeit der Überdeckung"}},
	"floor.covering": {
		entry{"Resistance of the covering", "Résistance du revêtement", "Resistencia del revestimiento", "Widerstand des Belags"},
		explained{"résistance thermique du revêtement de sol", "resistencia térmica del revestimiento", "Wärmedurchlasswiderstand des Bodenbelags"}},
	"floor.covering_kind": {
		entry{"Floor covering", "Revêtement de sol", "Revestimiento", "Bodenbelag"},
		explained{"la nature du revêtement ; le bois et ses semblables ont leurs propres limites", "de qué es el revestimiento; la madera y similares tienen sus propios límites", "was der Belag ist; Holz und Ähnliches haben eigene Grenzen"}},
	"floor.zone": {
		entry{"Zone", "Zone", "Zona", "Zone"},
		explained{"où se trouve ce sol ; zone de séjour à défaut", "dónde está el suelo; zona de estancia si se omite", "wo der Boden liegt; Aufenthaltszone, wenn nichts gesagt ist"}},
	"floor.insulation_below": {
		entry{"Insulation below", "Isolation dessous", "Aislamiento inferior", "Dämmung darunter"},
		explained{"isolant sous le tube", "aislamiento bajo el tubo", "Dämmung unter dem Rohr"}},
	"floor.temperature_below": {
		entry{"Temperature below", "Température dessous", "Temperatura inferior", "Temperatur darunter"},
		explained{"température sous cet isolant", "temperatura bajo ese aislamiento", "Temperatur unter dieser Dämmung"}},
	"floor.loops": {
		entry{"Loops", "Boucles", "Circuitos de tubo", "Heizschleifen"},
		explained{"combien de boucles de tube y sont posées", "cuántos circuitos de tubo hay en él", "wie viele Rohrschleifen darin liegen"}},
	"floor.loop_length": {
		entry{"Longest loop", "Plus longue boucle", "Circuito más largo", "Längste Heizschleife"},
		explained{"longueur de la plus longue boucle, liaisons comprises", "longitud del circuito más largo, con sus acometidas", "Länge der längsten Schleife mit ihren Anbindungen"}},

	"fan_coil": {
		entry{"Fan coil", "Ventilo-convecteur", "Ventiloconvector", "Gebläsekonvektor"},
		explained{"ventilo-convecteur, ou batterie d’une centrale d’air", "ventiloconvector o batería de una unidad de aire", "Gebläsekonvektor oder Heizregister eines Luftgeräts"}},
	"fan_coil.output": {
		entry{"Rated output", "Puissance nominale", "Potencia nominal", "Nennleistung"},
		explained{"puissance de chauffage nominale", "potencia nominal de calefacción", "Heizleistung der Prüfung"}},
	"fan_coil.entering_water": {
		entry{"Entering water", "Eau à l’entrée", "Agua de entrada", "Wassereintritt"},
		explained{"température d’entrée de l’eau pour cette puissance", "temperatura de entrada del agua de esa potencia", "Eintrittstemperatur des Wassers bei der Nennleistung"}},
	"fan_coil.entering_air": {
		entry{"Entering air", "Air à l’entrée", "Aire de entrada", "Lufteintritt"},
		explained{"température d’entrée de l’air pour cette puissance", "temperatura de entrada del aire de esa potencia", "Eintrittstemperatur der Luft bei der Nennleistung"}},
	"fan_coil.water_flow": {
		entry{"Water flow", "Débit d’eau", "Caudal de agua", "Wasserdurchfluss"},
		explained{"débit d’eau pour cette puissance", "caudal de agua de esa potencia", "Wasserdurchfluss bei der Nennleistung"}},
	"fan_coil.fan": {
		entry{"Electricity of its fan", "Électricité du ventilateur", "Electricidad del ventilador", "Strom des Gebläses"},
		explained{"électricité de son ventilateur ; 15 W par kilowatt de puissance à défaut", "electricidad de su ventilador; 15 W por kilovatio de potencia si se omite", "Strom seines Gebläses; 15 W für jedes Kilowatt Leistung, wenn nichts gesagt ist"}},
	"fan_coil.air_flow": {
		entry{"Air flow", "Débit d’air", "Caudal de aire", "Luftmenge"},
		explained{"débit d’air pour cette puissance", "caudal de aire de esa potencia", "Luftmenge bei der Nennleistung"}},

	"sized": {
		entry{"Size not known", "Taille inconnue", "Tamaño desconocido", "Größe unbekannt"},
		explained{"taille inconnue : la température de départ pour laquelle on l’a sans doute dimensionné", "tamaño desconocido: la temperatura de impulsión para la que seguramente se dimensionó", "Größe unbekannt: die Vorlauftemperatur, für die sie wohl ausgelegt wurde"}},
	"sized.like": {
		entry{"Kind of emitter", "Type d’émetteur", "Tipo de emisor", "Art der Heizfläche"},
		explained{"type d’émetteur", "tipo de emisor", "um welche Heizflächen es sich handelt"}},
	"sized.supply": {
		entry{"Sized for a supply of", "Dimensionné pour un départ de", "Dimensionado para impulsión de", "Ausgelegt für Vorlauf von"},
		explained{"température de départ, le jour de base, pour laquelle on les a dimensionnés", "temperatura de impulsión, el día de proyecto, para la que se dimensionaron", "Vorlauftemperatur am Auslegungstag, für die sie bemessen wurden"}},
}

// A towel rail is described as a radiator is.
var (
	radiatorOutput = field{
		entry{"Rated output", "Puissance nominale", "Potencia nominal", "Normleistung"},
		explained{"puissance nominale ; ou celle par longueur ou par élément, avec ce qu’il y en a", "potencia nominal; o la de cada longitud o elemento, con cuánto hay", "Normleistung; oder die je Länge oder je Glied, mit der Anzahl"}}
	radiatorPerLength = field{
		entry{"Rated output per length", "Puissance nominale par longueur", "Potencia nominal por longitud", "Normleistung je Länge"},
		explained{"puissance nominale par longueur, selon la fiche technique ; au lieu de la puissance", "potencia nominal por longitud, según la hoja técnica; en lugar de la potencia", "Normleistung je Länge, wie im Datenblatt; statt der Normleistung"}}
	radiatorLength = field{
		entry{"Length", "Longueur", "Longitud", "Länge"},
		explained{"sa longueur ; avec la puissance par longueur", "su longitud; con la potencia por longitud", "seine Länge; zur Leistung je Länge"}}
	radiatorPerSection = field{
		entry{"Rated output of a section", "Puissance nominale d’un élément", "Potencia nominal de un elemento", "Normleistung eines Glieds"},
		explained{"puissance nominale d’un élément ; au lieu de la puissance", "potencia nominal de un elemento; en lugar de la potencia", "Normleistung eines Glieds; statt der Normleistung"}}
	radiatorSections = field{
		entry{"Sections", "Éléments", "Elementos", "Glieder"},
		explained{"nombre d’éléments ; avec la puissance d’un élément", "número de elementos; con la potencia de un elemento", "Zahl der Glieder; zur Leistung eines Glieds"}}
	radiatorAt = field{
		entry{"Average water of the rating", "Eau moyenne à l’essai", "Agua media del ensayo", "Mittleres Wasser der Normleistung"},
		explained{"température moyenne de l’eau pour cette puissance, au lieu de l’écart : 82 °C", "temperatura media del agua de esa potencia, en lugar del salto: 82 °C", "mittlere Wassertemperatur der Normleistung, statt der Übertemperatur: 82 °C"}}
	radiatorAir = field{
		entry{"Air of the rating", "Air à l’essai", "Aire del ensayo", "Luft der Normleistung"},
		explained{"température de l’air pour cette puissance ; 20 °C à défaut", "temperatura del aire de esa potencia; 20 °C si se omite", "Lufttemperatur der Normleistung; 20 °C, wenn nichts gesagt ist"}}
	radiatorExcess = field{
		entry{"Excess temperature", "Écart de température (ΔT)", "Salto térmico (ΔT)", "Übertemperatur"},
		explained{"écart entre l’eau et la pièce pour cette puissance ; 50 K à défaut, comme à 75/65/20 °C", "diferencia entre agua y habitación de esa potencia; 50 K si se omite, como a 75/65/20 °C", "Übertemperatur der Normleistung; 50 K, wenn nichts gesagt ist, wie bei 75/65/20 °C"}}
	radiatorExponent = field{
		entry{"Exponent", "Exposant", "Exponente", "Heizkörperexponent"},
		explained{"exposant de la courbe de puissance ; usuel pour ce type à défaut", "exponente de la curva de potencia; el usual de su tipo si se omite", "Exponent der Leistungskennlinie; üblich für die Bauart, wenn nichts gesagt ist"}}
	radiatorKind = field{
		entry{"Kind", "Type", "Tipo", "Bauart"},
		explained{"panneau, à colonnes ou convecteur", "de panel, de columnas o convector", "Plattenheizkörper, Gliederheizkörper oder Konvektor"}}
)
