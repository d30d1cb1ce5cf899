package words

// houseFields are those of the house as a whole, its fuel and its constructions.
var houseFields = map[string]field{
	"house": {
		entry{"House", "Maison", "Casa", "Haus"},
		explained{"la maison dans son ensemble", "la casa en conjunto", "das Haus im Ganzen"}},
	"house.floor_area": {
		entry{"Heated floor area", "Surface chauffée", "Superficie calefactada", "Beheizte Fläche"},
		explained{"surface de plancher chauffée", "superficie de suelo calefactada", "beheizte Grundfläche aller Geschosse"}},
	"house.storeys": {
		entry{"Heated storeys", "Niveaux chauffés", "Plantas calefactadas", "Beheizte Geschosse"},
		explained{"nombre de niveaux chauffés", "número de plantas calefactadas", "Zahl der beheizten Geschosse"}},
	"house.ceiling_height": {
		entry{"Ceiling height", "Hauteur sous plafond", "Altura libre", "Raumhöhe"},
		explained{"hauteur libre des niveaux", "altura libre de las plantas", "lichte Höhe der Geschosse"}},
	"house.era": {
		entry{"Built", "Construite", "Construida", "Erbaut"},
		explained{"époque de construction", "época de construcción", "wann es gebaut wurde"}},
	"house.insulation": {
		entry{"Insulation today", "Isolation actuelle", "Aislamiento actual", "Dämmung heute"},
		explained{"état actuel de l’isolation", "estado actual del aislamiento", "heutiger Zustand der Dämmung"}},
	"house.glazing": {
		entry{"Most windows", "La plupart des fenêtres", "La mayoría de las ventanas", "Die meisten Fenster"},
		explained{"vitrage de la plupart des fenêtres", "acristalamiento de la mayoría de las ventanas", "Verglasung der meisten Fenster"}},
	"house.tightness": {
		entry{"Draughts", "Étanchéité à l’air", "Estanqueidad al aire", "Luftdichtheit"},
		explained{"si la maison laisse passer les courants d’air", "cuánto aire se cuela en la casa", "wie zugig es ist"}},
	"house.under": {
		entry{"Under the lowest floor", "Sous le plancher bas", "Bajo el suelo inferior", "Unter dem untersten Boden"},
		explained{"ce qui se trouve sous le plancher chauffé le plus bas", "lo que hay bajo el suelo calefactado más bajo", "was unter dem untersten beheizten Boden liegt"}},
	"house.setpoint": {
		entry{"Room temperature wanted", "Température ambiante voulue", "Temperatura ambiente deseada", "Gewünschte Raumtemperatur"},
		explained{"température ambiante voulue", "temperatura ambiente deseada", "Raumtemperatur, die gewünscht wird"}},
	"house.load": {
		entry{"Heat load of the house", "Déperditions de la maison", "Carga térmica de la casa", "Heizlast des Hauses"},
		explained{"déperditions de toute la maison le jour de base, si on les connaît", "carga térmica de toda la casa el día de proyecto, si se conoce", "Heizlast des ganzen Hauses am Auslegungstag, falls bekannt"}},
	"house.fuel": {
		entry{"A year’s fuel", "Combustible d’une année", "Combustible de un año", "Brennstoff eines Jahres"},
		explained{"la consommation d’une année, pour tirer les déperditions des factures", "el consumo de un año, para deducir las pérdidas de las facturas", "der Verbrauch eines Jahres, um den Wärmeverlust aus Rechnungen zu finden"}},
	"house.fuel.fuel": {
		entry{"Fuel", "Combustible", "Combustible", "Brennstoff"},
		explained{"le combustible", "el combustible", "der Brennstoff"}},
	"house.fuel.energy": {
		entry{"Energy bought", "Énergie achetée", "Energía comprada", "Bezogene Energie"},
		explained{"énergie achetée en un an (PCS) ; donnez-la, ou le volume", "energía comprada en un año (PCS); dé esta o el volumen", "im Jahr bezogene Energie (Brennwert); diese oder die Menge angeben"}},
	"house.fuel.volume": {
		entry{"Fuel bought", "Volume acheté", "Volumen comprado", "Bezogene Menge"},
		explained{"combustible acheté en un an ; donnez-le, ou l’énergie", "combustible comprado en un año; dé este o la energía", "im Jahr bezogener Brennstoff; diesen oder die Energie angeben"}},
	"house.fuel.degree_days": {
		entry{"Degree-days of that year", "Degrés-jours de cette année", "Grados-día de ese año", "Gradtage jenes Jahres"},
		explained{"degrés-jours de cette même année", "grados-día de ese mismo año", "Gradtage desselben Jahres"}},
	"house.fuel.base": {
		entry{"Base of the degree-days", "Base des degrés-jours", "Base de los grados-día", "Basis der Gradtage"},
		explained{"base des degrés-jours ; 18,3 °C à défaut", "base de los grados-día; 18,3 °C si se omite", "Basis der Gradtage; 18,3 °C, wenn nichts gesagt ist"}},
	"house.fuel.other_uses": {
		entry{"Other uses of it", "Autres usages", "Otros usos", "Andere Verwendung"},
		explained{"la part de cette énergie qui a servi à l’eau chaude et à la cuisson", "de esa energía, lo que fue a agua caliente y cocina", "was von der Energie für Warmwasser und Kochen gebraucht wurde"}},
	"house.fuel.people": {
		entry{"People in the house", "Habitants", "Habitantes", "Bewohner"},
		explained{"nombre d’habitants, pour estimer l’eau chaude si les autres usages manquent", "número de habitantes, para estimar el agua caliente si faltan los otros usos", "Zahl der Bewohner, um das Warmwasser zu schätzen, wenn die andere Verwendung fehlt"}},
	"house.fuel.efficiency": {
		entry{"Efficiency of that boiler", "Rendement de cette chaudière", "Rendimiento de esa caldera", "Nutzungsgrad jenes Kessels"},
		explained{"rendement saisonnier de la chaudière qui l’a brûlé", "rendimiento estacional de la caldera que lo quemó", "Jahresnutzungsgrad des Kessels, der ihn verbrannt hat"}},
	"house.trust": {
		entry{"Which load counts", "Déperditions retenues", "Qué carga cuenta", "Welche Heizlast gilt"},
		explained{"ce qui compte quand pièces et factures ne s’accordent pas ; les pièces à défaut", "qué carga cuenta si habitaciones y facturas no coinciden; las habitaciones si se omite", "welche Heizlast gilt, wenn Räume und Rechnungen sich widersprechen; die der Räume, wenn nichts gesagt ist"}},
	"house.blower_door": {
		entry{"Blower-door test", "Test d’infiltrométrie", "Ensayo de estanqueidad", "Luftdichtheitsmessung"},
		explained{"renouvellement d’air sous 50 Pa (n50) mesuré à la porte soufflante", "renovación de aire a 50 Pa (n50) medida con puerta ventiladora", "Luftwechsel bei 50 Pa (n50) aus einer Blower-Door-Messung"}},
	"house.gains": {
		entry{"Gains at night", "Apports de nuit", "Ganancias de noche", "Wärmegewinne nachts"},
		explained{"chaleur des habitants et des appareils sur laquelle on peut compter la nuit", "calor de personas y aparatos con el que se puede contar de noche", "Wärme von Menschen und Geräten, auf die nachts Verlass ist"}},

	"constructions": {
		entry{"Constructions", "Parois types", "Cerramientos", "Bauteilaufbauten"},
		explained{"murs, toits et planchers, par leur nom", "muros, cubiertas y suelos, por su nombre", "Wände, Dächer und Böden mit Namen"}},
	"constructions[]": {label: entry{"Construction", "Paroi type", "Cerramiento", "Aufbau"}},
	"constructions[].name": {
		entry{"Name", "Nom", "Nombre", "Name"},
		explained{"nom employé par les parois des pièces", "nombre que usan los cerramientos de las habitaciones", "Name, den die Flächen der Räume nennen"}},
	"constructions[].u": {
		entry{"U-value", "Coefficient U", "Transmitancia U", "U-Wert"},
		explained{"coefficient U ; donnez-le, ou les couches", "transmitancia U; dé esta o las capas", "U-Wert; diesen oder die Schichten angeben"}},
	"constructions[].facing": {
		entry{"Heat flows through a", "Type de paroi", "Tipo de cerramiento", "Art der Fläche"},
		explained{"sens du flux de chaleur : mur, toit (vers le haut) ou plancher (vers le bas)", "hacia dónde va el calor: muro, cubierta (arriba) o suelo (abajo)", "wohin die Wärme fließt: Wand, Dach (nach oben) oder Boden (nach unten)"}},
	"constructions[].layers": {
		entry{"Layers", "Couches", "Capas", "Schichten"},
		explained{"couches de l’extérieur vers l’intérieur, sans les résistances superficielles", "capas de fuera hacia dentro, sin las resistencias superficiales", "Schichten von außen nach innen, ohne die Wärmeübergänge"}},
	"constructions[].layers[]": {label: entry{"Layer", "Couche", "Capa", "Schicht"}},
	"constructions[].layers[].material": {
		entry{"Material", "Matériau", "Material", "Material"},
		explained{"de quoi la couche est faite", "de qué es la capa", "woraus die Schicht besteht"}},
	"constructions[].layers[].thickness": {
		entry{"Thickness", "Épaisseur", "Espesor", "Dicke"},
		explained{"épaisseur ; avec la conductivité", "espesor; con la conductividad", "Dicke; zusammen mit der Wärmeleitfähigkeit"}},
	"constructions[].layers[].conductivity": {
		entry{"Conductivity", "Conductivité", "Conductividad", "Wärmeleitfähigkeit"},
		explained{"conductivité thermique", "conductividad térmica", "Wärmeleitfähigkeit des Materials"}},
	"constructions[].layers[].resistance": {
		entry{"Resistance", "Résistance", "Resistencia", "Widerstand"},
		explained{"résistance thermique, au lieu de l’épaisseur et de la conductivité", "resistencia térmica, en lugar de espesor y conductividad", "Wärmedurchlasswiderstand, statt Dicke und Wärmeleitfähigkeit"}},
	"constructions[].layers[].bridged_by": {
		entry{"Bridged by", "Conductivité du pont", "Conductividad del puente", "Leitfähigkeit der Brücke"},
		explained{"conductivité des montants, solives ou joints qui traversent la couche", "conductividad de los montantes, vigas o juntas que atraviesan la capa", "Wärmeleitfähigkeit der Ständer, Balken oder Fugen, die durch die Schicht gehen"}},
	"constructions[].layers[].bridge_share": {
		entry{"Share of the bridge", "Part du pont", "Parte del puente", "Anteil der Brücke"},
		explained{"part de la surface qu’occupe ce pont", "parte de la superficie que ocupa el puente", "Anteil der Fläche, den die Brücke einnimmt"}},
}

// roomFields are those of the rooms and of the surfaces through which they lose heat.
var roomFields = map[string]field{
	"rooms": {
		entry{"Rooms", "Pièces", "Habitaciones", "Räume"},
		explained{"pièce par pièce ; à laisser de côté pour la voie courte", "habitación por habitación; se omite en el camino corto", "Raum für Raum; auf dem kurzen Weg weglassen"}},
	"rooms[]": {label: entry{"Room", "Pièce", "Habitación", "Raum"}},
	"rooms[].name": {
		entry{"Name", "Nom", "Nombre", "Name"},
		explained{"nom de la pièce", "nombre de la habitación", "Name des Raumes"}},
	"rooms[].setpoint": {
		entry{"Temperature wanted", "Température voulue", "Temperatura deseada", "Gewünschte Temperatur"},
		explained{"température voulue, si ce n’est pas celle de la maison", "temperatura deseada, si no es la de la casa", "gewünschte Temperatur, wenn nicht die des Hauses"}},
	"rooms[].area": {
		entry{"Floor area", "Surface au sol", "Superficie", "Grundfläche"},
		explained{"surface au sol de la pièce", "superficie de la habitación", "Grundfläche des Raumes"}},
	"rooms[].height": {
		entry{"Ceiling height", "Hauteur sous plafond", "Altura libre", "Raumhöhe"},
		explained{"hauteur libre, si ce n’est pas celle de la maison", "altura libre, si no es la de la casa", "lichte Höhe, wenn nicht die des Hauses"}},
	"rooms[].wet_room": {
		entry{"Bathroom", "Salle de bains", "Cuarto de baño", "Badezimmer"},
		explained{"une salle de bains : son sol peut être plus chaud", "un cuarto de baño: su suelo puede estar más caliente", "ein Bad: sein Boden darf wärmer sein"}},
	"rooms[].load": {
		entry{"Heat load", "Déperditions", "Carga térmica", "Heizlast"},
		explained{"déperditions le jour de base, au lieu des parois", "carga térmica el día de proyecto, en lugar de los cerramientos", "Heizlast am Auslegungstag, statt der Flächen"}},
	"rooms[].elements": {
		entry{"Surfaces", "Parois", "Cerramientos", "Flächen"},
		explained{"parois par lesquelles la pièce perd de la chaleur", "superficies por las que la habitación pierde calor", "Flächen, durch die der Raum Wärme verliert"}},
	"rooms[].elements[]": {label: entry{"Surface", "Paroi", "Cerramiento", "Fläche"}},
	"rooms[].elements[].name": {
		entry{"Name", "Nom", "Nombre", "Name"},
		explained{"ce que c’est : mur, fenêtre, plafond", "qué es: muro, ventana, techo", "was es ist: Wand, Fenster, Decke"}},
	"rooms[].elements[].area": {
		entry{"Area", "Surface", "Superficie", "Größe"},
		explained{"surface de la paroi", "superficie del cerramiento", "Größe der Fläche"}},
	"rooms[].elements[].u": {
		entry{"U-value", "Coefficient U", "Transmitancia U", "U-Wert"},
		explained{"coefficient U ; donnez-le, ou la paroi type", "transmitancia U; dé esta o el cerramiento tipo", "U-Wert; diesen oder den Aufbau angeben"}},
	"rooms[].elements[].construction": {
		entry{"Construction", "Paroi type", "Cerramiento tipo", "Aufbau"},
		explained{"nom d’une des parois types", "nombre de uno de los cerramientos tipo", "Name eines der Bauteilaufbauten"}},
	"rooms[].elements[].to": {
		entry{"What lies behind", "Derrière la paroi", "Qué hay detrás", "Was dahinter liegt"},
		explained{"ce qui se trouve derrière ; l’extérieur à défaut", "lo que hay detrás; el exterior si se omite", "was dahinter liegt; draußen, wenn nichts gesagt ist"}},
	"rooms[].elements[].room": {
		entry{"Room behind", "Pièce derrière", "Habitación de detrás", "Raum dahinter"},
		explained{"nom de la pièce qui se trouve derrière, si c’en est une", "nombre de la habitación de detrás, si es una", "Name des Raumes dahinter, wenn es einer ist"}},
	"rooms[].elements[].reduction": {
		entry{"Share of the difference", "Coefficient de réduction", "Factor de reducción", "Reduktionsfaktor"},
		explained{"vers un local non chauffé : part de l’écart complet de température, 50 % à défaut", "hacia un espacio no calefactado: parte de la diferencia completa, 50 % si se omite", "gegen einen unbeheizten Raum: Anteil der vollen Temperaturdifferenz, 50 %, wenn nichts gesagt ist"}},
	"rooms[].elements[].perimeter": {
		entry{"Exposed edge", "Périmètre exposé", "Perímetro expuesto", "Freier Rand"},
		explained{"d’un plancher sur terre-plein : le bord exposé de toute la dalle dont cette surface fait partie", "de un suelo sobre el terreno: el borde expuesto de toda la solera a la que pertenece esta superficie", "eines Bodens auf Erdreich: der freie Rand der ganzen Bodenplatte, zu der diese Fläche gehört"}},
	"rooms[].elements[].slab_area": {
		entry{"Area of the slab", "Surface de la dalle", "Superficie de la solera", "Größe der Bodenplatte"},
		explained{"d’un plancher sur terre-plein : surface de toute la dalle, si elle dépasse cette pièce", "de un suelo sobre el terreno: superficie de toda la solera, si es mayor que la habitación", "eines Bodens auf Erdreich: Größe der ganzen Platte, wenn sie größer ist als dieser Raum"}},
	"rooms[].elements[].insulation": {
		entry{"Insulation of the slab", "Isolation de la dalle", "Aislamiento de la solera", "Dämmung der Bodenplatte"},
		explained{"d’un plancher sur terre-plein : isolant sous la dalle ou sur elle", "de un suelo sobre el terreno: aislamiento bajo la solera o sobre ella", "eines Bodens auf Erdreich: Dämmung unter oder auf der Platte"}},
	"rooms[].elements[].depth": {
		entry{"Depth below ground", "Profondeur", "Profundidad", "Tiefe im Erdreich"},
		explained{"d’un plancher de sous-sol : profondeur sous le terrain", "de un suelo de sótano: profundidad bajo el terreno", "eines Kellerbodens: Tiefe unter dem Gelände"}},
	"rooms[].air_change": {
		entry{"Air change", "Renouvellement d’air", "Renovación de aire", "Luftwechsel"},
		explained{"renouvellement d’air le jour de base, s’il ne vient pas de l’infiltrométrie", "renovación de aire el día de proyecto, si no viene del ensayo de estanqueidad", "Luftwechsel am Auslegungstag, wenn nicht aus der Luftdichtheitsmessung"}},
	"rooms[].gains": {
		entry{"Gains at night", "Apports de nuit", "Ganancias de noche", "Wärmegewinne nachts"},
		explained{"chaleur sur laquelle on peut compter la nuit, si elle n’est pas répartie selon la surface", "calor con el que se puede contar de noche, si no se reparte por superficie", "Wärme, auf die nachts Verlass ist, wenn nicht nach der Fläche verteilt"}},
	"rooms[].emitters": {
		entry{"Emitters", "Émetteurs", "Emisores", "Heizflächen"},
		explained{"ce qui chauffe la pièce", "lo que calienta la habitación", "was den Raum heizt"}},
	"rooms[].emitters[]": {label: entry{"Emitter", "Émetteur", "Emisor", "Heizfläche"}},
}
