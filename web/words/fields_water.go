package words

// waterFields are those of the hot water and of the closed heating system.
var waterFields = map[string]field{
	"hot_water": {
		entry{"Hot water", "Eau chaude sanitaire", "Agua caliente sanitaria", "Warmwasser"},
		explained{"comment l’eau chaude est produite", "cómo se produce el agua caliente", "wie Warmwasser bereitet wird"}},
	"hot_water.by": {
		entry{"How it is made", "Mode de production", "Modo de producción", "Wie es bereitet wird"},
		explained{"comment l’eau chaude est produite", "cómo se produce el agua caliente", "wie Warmwasser bereitet wird"}},
	"hot_water.tank": {
		entry{"Volume of the tank", "Volume du ballon", "Volumen del acumulador", "Inhalt des Speichers"},
		explained{"volume du ballon d’eau chaude", "volumen del acumulador", "Inhalt des Warmwasserspeichers"}},
	"hot_water.setpoint": {
		entry{"Temperature wanted", "Température voulue", "Temperatura deseada", "Gewünschte Temperatur"},
		explained{"température voulue dans le ballon, ou à la sortie de la chaudière mixte", "temperatura deseada en el acumulador, o a la salida de la caldera mixta", "gewünschte Temperatur im Speicher oder am Auslauf der Kombitherme"}},
	"hot_water.mixing_valve": {
		entry{"Mixing valve", "Mitigeur thermostatique", "Válvula mezcladora termostática", "Thermischer Mischer"},
		explained{"un mitigeur thermostatique à la sortie du ballon", "una válvula mezcladora a la salida del acumulador", "ein thermischer Mischer am Auslauf des Speichers"}},
	"hot_water.recirculation": {
		entry{"Circulation loop", "Bouclage", "Recirculación", "Zirkulation"},
		explained{"une boucle de circulation d’eau chaude", "un anillo de recirculación de agua caliente", "eine Zirkulationsleitung für Warmwasser"}},
	"hot_water.takes_from": {
		entry{"Tank draws from", "Le ballon puise à", "El acumulador toma de", "Speicher zieht aus"},
		explained{"à côté d’un ballon tampon : si le ballon puise à la chaudière, hors du tampon, ou au tampon ; à la chaudière à défaut", "junto a un depósito de inercia: si el acumulador toma de la caldera, sin pasar por la inercia, o de la inercia; de la caldera si se omite", "neben einem Pufferspeicher: ob der Speicher aus dem Kessel zieht, am Puffer vorbei, oder aus dem Puffer; aus dem Kessel, wenn nichts gesagt ist"}},
	"hot_water.priority": {
		entry{"Priority", "Priorité", "Prioridad", "Vorrang"},
		explained{"si le chauffage attend pendant la charge du ballon ; calculé à défaut", "si la calefacción espera mientras se carga el acumulador; se calcula si se omite", "ob die Heizung wartet, während der Speicher geladen wird; wird errechnet, wenn nichts gesagt ist"}},
	"hot_water.people": {
		entry{"People", "Personnes", "Personas", "Personen"},
		explained{"nombre de personnes qui s’en servent", "número de personas que la usan", "wie viele Menschen es gebrauchen"}},
	"hot_water.pattern": {
		entry{"Day of draws", "Journée de puisage", "Día de consumo", "Zapfprofil"},
		explained{"la journée de puisage à simuler ; choisie d’après les personnes à défaut", "el día de consumo que se simula; según las personas si se omite", "der Tag von Zapfungen, der durchgespielt wird; nach den Personen gewählt, wenn nichts gesagt ist"}},
	"hot_water.cold": {
		entry{"Cold water in winter", "Eau froide en hiver", "Agua fría en invierno", "Kaltwasser im Winter"},
		explained{"température de l’eau froide en hiver ; 10 °C à défaut", "temperatura del agua fría en invierno; 10 °C si se omite", "Temperatur des Kaltwassers im Winter; 10 °C, wenn nichts gesagt ist"}},
	"hot_water.coil": {
		entry{"Coil of the tank", "Serpentin du ballon", "Serpentín del acumulador", "Heizwendel des Speichers"},
		explained{"le serpentin du ballon, par un point de sa fiche", "el serpentín del acumulador, por un punto de su ficha", "die Heizwendel des Speichers nach einem Punkt ihres Datenblatts"}},
	"hot_water.coil.output": {
		entry{"Rated output", "Puissance nominale", "Potencia nominal", "Nennleistung"},
		explained{"puissance nominale", "potencia nominal", "Leistung laut Datenblatt"}},
	"hot_water.coil.supply": {
		entry{"Primary supply", "Départ primaire", "Impulsión del primario", "Heizwasservorlauf"},
		explained{"départ primaire pour cette puissance", "impulsión del primario de esa potencia", "Heizwasservorlauf bei der Nennleistung"}},
	"hot_water.coil.flow": {
		entry{"Primary flow", "Débit primaire", "Caudal del primario", "Heizwasserdurchfluss"},
		explained{"débit primaire pour cette puissance", "caudal del primario de esa potencia", "Heizwasserdurchfluss bei der Nennleistung"}},
	"hot_water.coil.tank": {
		entry{"Mean tank temperature", "Température moyenne du ballon", "Temperatura media del acumulador", "Mittlere Speichertemperatur"},
		explained{"température moyenne du ballon pour cette puissance ; 35 °C à défaut", "temperatura media del acumulador de esa potencia; 35 °C si se omite", "mittlere Speichertemperatur bei der Nennleistung; 35 °C, wenn nichts gesagt ist"}},
	"hot_water.standing_loss": {
		entry{"Standing loss", "Pertes du ballon", "Pérdidas del acumulador", "Bereitschaftsverlust"},
		explained{"chaleur que perd le ballon plein", "calor que pierde el acumulador lleno", "Wärme, die der volle Speicher verliert"}},
	"hot_water.loop_length": {
		entry{"Length of the loop", "Longueur du bouclage", "Longitud de recirculación", "Länge der Zirkulation"},
		explained{"longueur de la boucle de circulation, aller et retour", "longitud del anillo de recirculación, ida y vuelta", "Länge der Zirkulationsleitung, hin und zurück"}},
	"hot_water.loop_tube": {
		entry{"Tube of the loop", "Tube du bouclage", "Tubo de recirculación", "Rohr der Zirkulation"},
		explained{"diamètre extérieur de son tube", "diámetro exterior de su tubo", "Außendurchmesser ihres Rohres"}},
	"hot_water.loop_insulation": {
		entry{"Insulation of the loop", "Calorifuge du bouclage", "Aislamiento de recirculación", "Dämmung der Zirkulation"},
		explained{"épaisseur de son calorifuge", "espesor de su aislamiento", "Dicke ihrer Dämmung"}},

	"system": {
		entry{"Heating water", "Eau de chauffage", "Agua de calefacción", "Heizwasser"},
		explained{"l’installation fermée : eau, pression, antigel", "la instalación cerrada: agua, presión, anticongelante", "die geschlossene Anlage: Wasser, Druck, Frostschutz"}},
	"system.content": {
		entry{"Water in the system", "Contenance de l’installation", "Contenido de la instalación", "Inhalt der Anlage"},
		explained{"eau de toute l’installation, relevée au compteur au remplissage ou estimée", "agua de toda la instalación, del contador al llenarla o estimada", "Wasser der ganzen Anlage, vom Zähler beim Füllen oder geschätzt"}},
	"system.height": {
		entry{"Height above the vessel", "Hauteur statique", "Altura estática", "Statische Höhe"},
		explained{"du vase jusqu’à l’émetteur ou au tube le plus haut", "del vaso hasta el emisor o tubo más alto", "vom Ausdehnungsgefäß bis zur höchsten Heizfläche oder Leitung"}},
	"system.vessel": {
		entry{"Expansion vessel", "Vase d’expansion", "Vaso de expansión", "Ausdehnungsgefäß"},
		explained{"volume nominal du vase d’expansion", "volumen nominal del vaso de expansión", "Nenninhalt des Ausdehnungsgefäßes"}},
	"system.precharge": {
		entry{"Precharge", "Pression de prégonflage", "Presión de precarga", "Vordruck"},
		explained{"son prégonflage, tel que trouvé", "su precarga, tal como se encontró", "sein Vordruck, wie vorgefunden"}},
	"system.relief": {
		entry{"Relief valve", "Soupape de sécurité", "Válvula de seguridad", "Sicherheitsventil"},
		explained{"pression de tarage de la soupape de sécurité", "presión a la que abre la válvula de seguridad", "Druck, bei dem das Sicherheitsventil öffnet"}},
	"system.hardness": {
		entry{"Hardness", "Dureté", "Dureza", "Wasserhärte"},
		explained{"dureté de l’eau de remplissage", "dureza del agua de llenado", "Härte des Füllwassers"}},
	"system.boiler_water": {
		entry{"Water in the boiler", "Eau de la chaudière", "Agua de la caldera", "Wasser im Kessel"},
		explained{"eau contenue dans la chaudière même", "agua contenida en la propia caldera", "Wasser im Kessel selbst"}},
	"system.aluminium": {
		entry{"Aluminium heat exchanger", "Échangeur en aluminium", "Intercambiador de aluminio", "Wärmetauscher aus Aluminium"},
		explained{"si l’échangeur de la chaudière est en aluminium", "si el intercambiador de la caldera es de aluminio", "ob der Wärmetauscher des Kessels aus Aluminium ist"}},
	"system.antifreeze": {
		entry{"Antifreeze", "Antigel", "Anticongelante", "Frostschutzmittel"},
		explained{"antigel dans l’eau de chauffage", "anticongelante en el agua de calefacción", "Frostschutzmittel im Heizwasser"}},
	"system.antifreeze_share": {
		entry{"Share of antifreeze", "Part d’antigel", "Parte de anticongelante", "Anteil Frostschutzmittel"},
		explained{"sa part en volume", "su parte en volumen", "sein Anteil nach Volumen"}},
	"system.frost_target": {
		entry{"Frost protection down to", "Protection jusqu’à", "Protección hasta", "Frostsicher bis"},
		explained{"température la plus basse que le remplissage doit supporter sans geler", "temperatura más baja que el llenado debe soportar sin helarse", "tiefste Temperatur, die die Füllung ohne Gefrieren aushalten soll"}},
}

// sensorFields are those of temperature sensors.
var sensorFields = map[string]field{
	"sensors": {
		entry{"Temperature sensors", "Sondes de température", "Sondas de temperatura", "Temperaturfühler"},
		explained{"sondes de température, pour imprimer leurs tables et juger une mesure", "sondas de temperatura, para imprimir sus tablas y juzgar una lectura", "Temperaturfühler, um ihre Tabellen zu drucken und eine Messung zu beurteilen"}},
	"sensors[]": {label: entry{"Sensor", "Sonde", "Sonda", "Fühler"}},
	"sensors[].name": {
		entry{"What it measures", "Ce qu’elle mesure", "Qué mide", "Was er misst"},
		explained{"ce qu’elle mesure : extérieur, départ de la dalle, ballon", "qué mide: exterior, impulsión de la losa, acumulador", "was er misst: außen, Vorlauf der Fußbodenheizung, Speicher"}},
	"sensors[].type": {
		entry{"Kind of element", "Type d’élément", "Tipo de elemento", "Art des Elements"},
		explained{"type d’élément sensible", "tipo de elemento sensible", "Art des Messelements"}},
	"sensors[].r25": {
		entry{"Resistance at 25 °C", "Résistance à 25 °C", "Resistencia a 25 °C", "Widerstand bei 25 °C"},
		explained{"d’une thermistance : résistance à 25 °C ; avec B", "de un termistor: resistencia a 25 °C; con B", "eines Thermistors: Widerstand bei 25 °C; zusammen mit B"}},
	"sensors[].b": {
		entry{"B of the thermistor", "B de la thermistance", "B del termistor", "B-Wert des Thermistors"},
		explained{"d’une thermistance : son B, en kelvins", "de un termistor: su B, en kelvin", "eines Thermistors: sein B-Wert, in Kelvin"}},
	"sensors[].coefficients": {
		entry{"Coefficients of the thermistor", "Coefficients de la thermistance", "Coeficientes del termistor", "Koeffizienten des Thermistors"},
		explained{"d’une thermistance, au lieu de la résistance et de B : les trois coefficients de Steinhart et Hart", "de un termistor, en lugar de resistencia y B: los tres coeficientes de Steinhart y Hart", "eines Thermistors, statt Widerstand und B-Wert: die drei Koeffizienten nach Steinhart und Hart"}},
	"sensors[].coefficients.a": {
		entry{"First", "Premier", "Primero", "Erster"},
		explained{"le premier, comme 1.129148e-3", "el primero, como 1.129148e-3", "der erste, wie 1.129148e-3"}},
	"sensors[].coefficients.b": {
		entry{"Second", "Deuxième", "Segundo", "Zweiter"},
		explained{"le deuxième, comme 2.34125e-4", "el segundo, como 2.34125e-4", "der zweite, wie 2.34125e-4"}},
	"sensors[].coefficients.c": {
		entry{"Third", "Troisième", "Tercero", "Dritter"},
		explained{"le troisième, comme 8.76741e-8", "el tercero, como 8.76741e-8", "der dritte, wie 8.76741e-8"}},
	"sensors[].points": {
		entry{"Points of the table", "Points de la table", "Puntos de la tabla", "Punkte der Tabelle"},
		explained{"du type table : points de la fiche du fabricant", "del tipo tabla: puntos de la ficha del fabricante", "bei Art Tabelle: Punkte aus dem Blatt des Herstellers"}},
	"sensors[].points[]": {label: entry{"Point", "Point", "Punto", "Punkt"}},
	"sensors[].points[].at": {
		entry{"Temperature", "Température", "Temperatura", "Temperatur"},
		explained{"température", "temperatura", "Temperatur dieses Punktes"}},
	"sensors[].points[].resistance": {
		entry{"Resistance", "Résistance", "Resistencia", "Widerstand"},
		explained{"résistance à cette température", "resistencia a esa temperatura", "Widerstand bei dieser Temperatur"}},
	"sensors[].sheet": {
		entry{"Table as printed", "Table telle quelle", "Tabla tal cual", "Tabelle, wie gedruckt"},
		explained{"du type table, au lieu des points : la table du fabricant telle quelle, une température et une résistance par ligne", "del tipo tabla, en lugar de puntos: la tabla del fabricante tal cual, una temperatura y una resistencia por línea", "bei Art Tabelle, statt Punkten: die Tabelle des Herstellers, wie sie ist, je Zeile eine Temperatur und ein Widerstand"}},
	"sensors[].reads": {
		entry{"Meter shows", "Mesure à l’ohmmètre", "Lectura del óhmetro", "Messgerät zeigt"},
		explained{"ce que l’appareil montre à ses bornes : une résistance, OL ou open (coupé), 0 ou short (court-circuit)", "lo que muestra el aparato en sus bornes: una resistencia, OL u open (abierto), 0 o short (cortocircuito)", "was ein Messgerät an seinen Klemmen zeigt: einen Widerstand, OL oder open (unterbrochen), 0 oder short (Kurzschluss)"}},
	"sensors[].beside": {
		entry{"Thermometer beside it", "Thermomètre à côté", "Termómetro al lado", "Thermometer daneben"},
		explained{"température à côté à ce moment, au thermomètre ; inutile si la ligne est coupée ou en court-circuit", "temperatura a su lado en ese momento, con termómetro; no hace falta con la línea abierta o en cortocircuito", "Temperatur daneben in diesem Augenblick, mit einem Thermometer; bei unterbrochener oder kurzgeschlossener Leitung unnötig"}},
}
