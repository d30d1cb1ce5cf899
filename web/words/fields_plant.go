package words

// circuitFields are those of the heating circuits, with their pipes and pumps.
var circuitFields = map[string]field{
	"circuits": {
		entry{"Heating circuits", "Circuits de chauffage", "Circuitos de calefacción", "Heizkreise"},
		explained{"circuits de chauffage, chacun avec une seule température de départ", "circuitos de calefacción, cada uno con una temperatura de impulsión", "Heizkreise, jeder mit einer Vorlauftemperatur"}},
	"circuits[]": {label: entry{"Circuit", "Circuit", "Circuito", "Heizkreis"}},
	"circuits[].name": {
		entry{"Name", "Nom", "Nombre", "Name"},
		explained{"nom du circuit", "nombre del circuito", "Name des Heizkreises"}},
	"circuits[].kind": {
		entry{"Kind", "Type", "Tipo", "Art"},
		explained{"direct : l’eau de la chaudière telle quelle ; mélangé : une vanne l’abaisse", "directo: el agua de la caldera tal cual; mezclado: una válvula la enfría", "direkt: Kesselwasser, wie es kommt; gemischt: ein Mischer kühlt es herab"}},
	"circuits[].layout": {
		entry{"Layout", "Distribution", "Distribución", "Verrohrung"},
		explained{"en série : une seule boucle traverse les émetteurs l’un après l’autre, dans l’ordre donné ici", "en serie: un solo anillo recorre los emisores uno tras otro, en el orden dado aquí", "Reihe: eine Leitung durchläuft die Heizflächen nacheinander, in der Folge, wie sie hier stehen"}},
	"circuits[].flow": {
		entry{"Water flow", "Débit d’eau", "Caudal de agua", "Durchfluss"},
		explained{"débit d’eau du circuit", "caudal de agua del circuito", "Wasserdurchfluss des Heizkreises"}},
	"circuits[].drop": {
		entry{"Supply minus return", "Chute départ – retour", "Salto impulsión – retorno", "Spreizung"},
		explained{"départ moins retour le jour de base ; donne le débit s’il n’est pas dit", "impulsión menos retorno el día de proyecto; da el caudal si este falta", "Vorlauf minus Rücklauf am Auslegungstag; ergibt den Durchfluss, wenn dieser fehlt"}},
	"circuits[].max_supply": {
		entry{"Highest supply", "Départ maximal", "Impulsión máxima", "Höchster Vorlauf"},
		explained{"température de départ la plus haute que ce circuit supporte", "temperatura de impulsión más alta que admite este circuito", "höchste Vorlauftemperatur, die dieser Heizkreis verträgt"}},
	"circuits[].share": {
		entry{"Share of the load", "Part des déperditions", "Parte de la carga", "Anteil an der Heizlast"},
		explained{"voie courte : part des déperditions de la maison", "camino corto: parte de la carga térmica de la casa", "kurzer Weg: Anteil an der Heizlast des Hauses"}},
	"circuits[].area": {
		entry{"Floor area heated", "Surface desservie", "Superficie servida", "Versorgte Fläche"},
		explained{"voie courte : surface que le circuit chauffe ; donne sa part", "camino corto: superficie que calienta el circuito; da su parte", "kurzer Weg: Grundfläche, die der Heizkreis versorgt; ergibt seinen Anteil"}},
	"circuits[].emitters": {
		entry{"Emitters", "Émetteurs", "Emisores", "Heizflächen"},
		explained{"voie courte : ce qui chauffe, sans les pièces", "camino corto: lo que calienta, sin habitaciones", "kurzer Weg: was heizt, ohne Räume"}},
	"circuits[].emitters[]": {label: entry{"Emitter", "Émetteur", "Emisor", "Heizfläche"}},
	"circuits[].pipes": {
		entry{"Pipework", "Tuyauterie", "Tuberías", "Rohrleitungen"},
		explained{"la tuyauterie du circuit, de la chaufferie aux émetteurs et retour", "las tuberías del circuito, de la sala de calderas a los emisores y vuelta", "die Rohrleitungen des Heizkreises, vom Heizraum zu den Heizflächen und zurück"}},
	"circuits[].pipes[]": {label: entry{"Length of tube", "Tronçon", "Tramo de tubo", "Rohrstrecke"}},
	"circuits[].pipes[].tube": {
		entry{"Kind of tube", "Type de tube", "Tipo de tubo", "Rohrart"},
		explained{"type de tube", "tipo de tubo", "Art des Rohres"}},
	"circuits[].pipes[].size": {
		entry{"Size", "Dimension", "Medida", "Nennmaß"},
		explained{"dimension nominale, comme elle est imprimée : 3/4 ou 22x1", "medida nominal, como está impresa: 3/4 o 22x1", "Nennmaß, wie es aufgedruckt ist: 3/4 oder 22x1"}},
	"circuits[].pipes[].length": {
		entry{"Length there and back", "Longueur aller-retour", "Longitud de ida y vuelta", "Länge hin und zurück"},
		explained{"longueur, aller et retour", "longitud, ida y vuelta", "Länge, hin und zurück"}},
	"circuits[].pipes[].bends": {
		entry{"Elbows and bends", "Coudes", "Codos y curvas", "Winkel und Bögen"},
		explained{"nombre de coudes", "número de codos y curvas", "Zahl der Winkel und Bögen"}},
	"circuits[].pipes[].tees": {
		entry{"Tees", "Tés", "Tes", "T-Stücke"},
		explained{"tés dans lesquels l’eau change de direction", "tes en las que el agua cambia de dirección", "T-Stücke, in denen das Wasser abbiegt"}},
	"circuits[].pipes[].valves": {
		entry{"Valves", "Vannes", "Válvulas", "Absperrventile"},
		explained{"vannes à boisseau ou à opercule, ouvertes", "válvulas de bola o de compuerta, abiertas", "offene Kugelhähne oder Schieber"}},
	"circuits[].pipes[].extra": {
		entry{"Other pressure drop", "Autre perte de charge", "Otra pérdida de carga", "Sonstiger Druckverlust"},
		explained{"perte de charge du reste, au débit du circuit : filtre, échangeur, collecteur", "pérdida de carga de lo demás, al caudal del circuito: filtro, intercambiador, colector", "Druckverlust von allem Übrigen beim Durchfluss des Heizkreises: Filter, Wärmetauscher, Verteiler"}},
	"circuits[].pipes[].share": {
		entry{"Share of the flow", "Part du débit", "Parte del caudal", "Anteil am Durchfluss"},
		explained{"part du débit du circuit qui y passe ; tout à défaut. Des tronçons dont les parts font un tout sont des branches parallèles", "parte del caudal del circuito que pasa por él; todo si se omite. Los tramos cuyas partes suman el total son ramales paralelos", "Anteil am Durchfluss des Heizkreises; alles, wenn nichts gesagt ist. Strecken, deren Anteile ein Ganzes ergeben, liegen nebeneinander"}},
	"circuits[].pump": {
		entry{"Pump", "Circulateur", "Circulador", "Umwälzpumpe"},
		explained{"son circulateur", "su circulador", "seine Umwälzpumpe"}},
	"circuits[].pump.mode": {
		entry{"Mode", "Mode de marche", "Modo de marcha", "Regelart"},
		explained{"comment il tourne ; vitesse fixe à défaut", "cómo trabaja; velocidad fija si se omite", "wie sie läuft; feste Drehzahl, wenn nichts gesagt ist"}},
	"circuits[].pump.points": {
		entry{"Points of its curve", "Points de sa courbe", "Puntos de su curva", "Punkte der Kennlinie"},
		explained{"points de sa courbe la plus haute, d’après la fiche, le premier à débit nul", "puntos de su curva más alta, según la ficha, el primero sin caudal", "Punkte der höchsten Kennlinie aus dem Datenblatt, der erste ohne Durchfluss"}},
	"circuits[].pump.points[]": {label: entry{"Point", "Point", "Punto", "Punkt"}},
	"circuits[].pump.points[].flow": {
		entry{"Flow", "Débit", "Caudal", "Durchfluss"},
		explained{"débit", "caudal", "Durchfluss in diesem Punkt"}},
	"circuits[].pump.points[].head": {
		entry{"Head", "Hauteur manométrique", "Altura manométrica", "Förderhöhe"},
		explained{"hauteur manométrique à ce débit", "altura manométrica a ese caudal", "Förderhöhe bei diesem Durchfluss"}},
	"circuits[].pump_of": {
		entry{"Driven by the pump of", "Entraîné par le circulateur de", "Movido por el circulador de", "Angetrieben von der Pumpe von"},
		explained{"autre circuit dont le circulateur entraîne aussi celui-ci, en parallèle ; celui-ci n’en a alors pas", "otro circuito cuyo circulador mueve también este, en paralelo; este no tiene entonces uno propio", "anderer Heizkreis, dessen Umwälzpumpe auch diesen antreibt, parallel zu ihm; dieser hat dann keine eigene"}},
	"circuits[].valve": {
		entry{"Mixing valve", "Vanne mélangeuse", "Válvula mezcladora", "Mischer"},
		explained{"coefficient de débit de sa vanne mélangeuse, kv ou Cv", "coeficiente de caudal de su válvula mezcladora, kv o Cv", "Durchflusskoeffizient seines Mischers, kv oder Cv"}},
}

// boilerFields are those of the boiler, the separator and the outdoor sensor.
var boilerFields = map[string]field{
	"boiler": {
		entry{"Boiler", "Chaudière", "Caldera", "Heizkessel"},
		explained{"la chaudière", "la caldera", "der Heizkessel"}},
	"boiler.kind": {
		entry{"Kind", "Type", "Tipo", "Art"},
		explained{"à condensation ou non", "de condensación o no", "Brennwertkessel oder nicht"}},
	"boiler.fuel": {
		entry{"Fuel", "Combustible", "Combustible", "Brennstoff"},
		explained{"le combustible", "el combustible", "der Brennstoff"}},
	"boiler.output": {
		entry{"Highest output", "Puissance maximale", "Potencia máxima", "Höchste Leistung"},
		explained{"puissance de chauffage maximale", "potencia máxima de calefacción", "höchste Heizleistung"}},
	"boiler.min_output": {
		entry{"Lowest output", "Puissance minimale", "Potencia mínima", "Kleinste Leistung"},
		explained{"puissance la plus basse sans arrêt du brûleur", "potencia más baja sin que pare el quemador", "kleinste Leistung, ohne dass der Brenner abschaltet"}},
	"boiler.output_at_site": {
		entry{"Output is for this altitude", "Puissance pour cette altitude", "Potencia para esta altitud", "Leistung gilt für diese Höhe"},
		explained{"si les puissances sont déjà celles du fabricant pour cette altitude ; non à défaut", "si las potencias son ya las del fabricante para esta altitud; no si se omite", "ob die Leistungen schon die des Herstellers für diese Höhe sind; nein, wenn nichts gesagt ist"}},
	"boiler.burner": {
		entry{"Kind of burner", "Type de brûleur", "Tipo de quemador", "Art des Brenners"},
		explained{"prémélange ou air soufflé avec un ventilateur, atmosphérique sous un coupe-tirage ; donne l’excès d’air que personne n’a mesuré", "premezcla o aire forzado con ventilador, atmosférico bajo un cortatiro; da el exceso de aire que nadie midió", "Vormischer oder Gebläsebrenner, atmosphärisch unter einer Strömungssicherung; gibt den Luftüberschuss, wo niemand ihn gemessen hat"}},
	"boiler.least_return": {
		entry{"Maker’s least return", "Retour minimal du fabricant", "Retorno mínimo del fabricante", "Kleinster Rücklauf laut Hersteller"},
		explained{"retour minimal que demande le fabricant d’une chaudière qui ne doit pas condenser ; 54 °C (130 °F) ou le point de rosée avec une marge à défaut", "retorno mínimo que pide el fabricante de una caldera que no debe condensar; 54 °C (130 °F) o el punto de rocío con un margen si se omite", "kleinster Rücklauf, den der Hersteller eines Kessels verlangt, der nicht kondensieren darf; 54 °C (130 °F) oder der Taupunkt mit Abstand, wenn nichts gesagt ist"}},
	"boiler.max_supply": {
		entry{"Highest supply", "Départ maximal", "Impulsión máxima", "Höchster Vorlauf"},
		explained{"température de départ la plus haute qu’on peut régler", "temperatura de impulsión más alta que se puede ajustar", "höchste einstellbare Vorlauftemperatur"}},
	"boiler.min_supply": {
		entry{"Lowest supply", "Départ minimal", "Impulsión mínima", "Niedrigster Vorlauf"},
		explained{"température de départ la plus basse qu’on peut régler", "temperatura de impulsión más baja que se puede ajustar", "niedrigste einstellbare Vorlauftemperatur"}},
	"boiler.water": {
		entry{"Water always in flow", "Eau toujours en circulation", "Agua siempre en circulación", "Wasser stets im Umlauf"},
		explained{"eau qui chauffe et refroidit avec le brûleur : chaudière, tubes et émetteurs toujours irrigués, ballon tampon", "agua que se calienta y enfría con el quemador: caldera, tubos y emisores siempre con caudal, depósito de inercia", "Wasser, das mit dem Brenner warm und kühl wird: Kessel, stets durchflossene Rohre und Heizflächen, Puffer"}},
	"boiler.differential": {
		entry{"Burner’s stop to start", "Différentiel du brûleur", "Diferencial del quemador", "Schaltdifferenz des Brenners"},
		explained{"entre l’arrêt du brûleur et son redémarrage ; 5 K à défaut", "entre la parada del quemador y su nuevo arranque; 5 K si se omite", "zwischen Abschalten und nächstem Start des Brenners; 5 K, wenn nichts gesagt ist"}},
	"boiler.least_run": {
		entry{"Shortest run wanted", "Marche minimale voulue", "Marcha mínima deseada", "Gewünschte Mindestlaufzeit"},
		explained{"plus courte marche voulue du brûleur ; 10 min à défaut", "marcha más corta deseada del quemador; 10 min si se omite", "kürzeste gewünschte Laufzeit des Brenners; 10 min, wenn nichts gesagt ist"}},
	"boiler.excess_air": {
		entry{"Excess air", "Excès d’air", "Exceso de aire", "Luftüberschuss"},
		explained{"excès d’air du brûleur, d’après un analyseur ; 25 % à défaut, 90 % pour un brûleur atmosphérique", "exceso de aire del quemador, según un analizador; 25 % si se omite, 90 % si es atmosférico", "Luftüberschuss des Brenners, vom Messgerät; 25 %, wenn nichts gesagt ist, 90 % bei einem atmosphärischen"}},
	"boiler.meter_dial": {
		entry{"Gas per turn of dial", "Gaz par tour de compteur", "Gas por vuelta del contador", "Gas je Zählerumdrehung"},
		explained{"gaz pour un tour de l’aiguille observée du compteur ; 0,01 m³ ou 1 ft³ à défaut", "gas por una vuelta de la aguja observada del contador; 0,01 m³ o 1 ft³ si se omite", "Gas je Umdrehung des beobachteten Zeigers am Zähler; 0,01 m³ oder 1 ft³, wenn nichts gesagt ist"}},
	"boiler.heating_value": {
		entry{"Heat in the gas", "Pouvoir calorifique", "Poder calorífico", "Brennwert des Gases"},
		explained{"pouvoir calorifique supérieur (PCS) du gaz, sur la facture ; celui d’un gaz usuel à défaut", "poder calorífico superior (PCS) del gas, de la factura; el de un gas usual si se omite", "Brennwert des Gases, von der Rechnung; der eines üblichen Gases, wenn nichts gesagt ist"}},
	"boiler.gas": {
		entry{"Make-up of the gas", "Composition du gaz", "Composición del gas", "Zusammensetzung des Gases"},
		explained{"de quoi le gaz se compose, en volume, selon le fournisseur ; un gaz usuel à défaut", "de qué se compone el gas, en volumen, según el suministrador; un gas usual si se omite", "woraus das Gas besteht, nach Volumen, vom Versorger; ein übliches Gas, wenn nichts gesagt ist"}},
	"boiler.gas.methane": {
		entry{"Methane", "Méthane", "Metano", "Methan"},
		explained{"part de méthane, CH4", "parte de metano, CH4", "Anteil Methan, CH4"}},
	"boiler.gas.ethane": {
		entry{"Ethane", "Éthane", "Etano", "Ethan"},
		explained{"part d’éthane, C2H6", "parte de etano, C2H6", "Anteil Ethan, C2H6"}},
	"boiler.gas.propane": {
		entry{"Propane", "Propane", "Propano", "Propan"},
		explained{"part de propane, C3H8", "parte de propano, C3H8", "Anteil Propan, C3H8"}},
	"boiler.gas.butane": {
		entry{"Butane and heavier", "Butane et plus lourds", "Butano y más pesados", "Butan und schwerere"},
		explained{"part de butane, C4H10, et de ce qui est plus lourd", "parte de butano, C4H10, y de lo más pesado", "Anteil Butan, C4H10, und was schwerer ist"}},
	"boiler.gas.hydrogen": {
		entry{"Hydrogen", "Hydrogène", "Hidrógeno", "Wasserstoff"},
		explained{"part d’hydrogène, H2", "parte de hidrógeno, H2", "Anteil Wasserstoff, H2"}},
	"boiler.gas.nitrogen": {
		entry{"Nitrogen", "Azote", "Nitrógeno", "Stickstoff"},
		explained{"part d’azote, N2", "parte de nitrógeno, N2", "Anteil Stickstoff, N2"}},
	"boiler.gas.carbon_dioxide": {
		entry{"Carbon dioxide", "Dioxyde de carbone", "Dióxido de carbono", "Kohlendioxid"},
		explained{"part de dioxyde de carbone, CO2", "parte de dióxido de carbono, CO2", "Anteil Kohlendioxid, CO2"}},
	"boiler.electricity": {
		entry{"Electricity while burning", "Électricité en marche", "Electricidad en marcha", "Strom im Betrieb"},
		explained{"électricité de la chaudière quand elle brûle, sans circulateurs ; 30 W à défaut", "electricidad de la caldera mientras quema, sin bombas; 30 W si se omite", "Strom des Kessels, während er brennt, ohne Pumpen; 30 W, wenn nichts gesagt ist"}},
	"boiler.electricity_idle": {
		entry{"Electricity at rest", "Électricité au repos", "Electricidad en reposo", "Strom in Bereitschaft"},
		explained{"électricité de la chaudière et de la régulation le reste du temps aussi ; 5 W à défaut", "electricidad de la caldera y la regulación también el resto del tiempo; 5 W si se omite", "Strom von Kessel und Regelung auch in der übrigen Zeit; 5 W, wenn nichts gesagt ist"}},
	"boiler.rated": {
		entry{"Declared efficiencies", "Rendements déclarés", "Rendimientos declarados", "Angegebene Wirkungsgrade"},
		explained{"rendements que le fabricant déclare, pour étalonner la chaudière", "rendimientos que declara el fabricante, para calibrar la caldera", "Wirkungsgrade, die der Hersteller angibt, um den Kessel abzugleichen"}},
	"boiler.rated[]": {label: entry{"Declared efficiency", "Rendement déclaré", "Rendimiento declarado", "Angegebener Wirkungsgrad"}},
	"boiler.rated[].return": {
		entry{"Return temperature", "Température de retour", "Temperatura de retorno", "Rücklauftemperatur"},
		explained{"température de retour", "temperatura de retorno", "Rücklauftemperatur der Angabe"}},
	"boiler.rated[].rate": {
		entry{"Share of full fire", "Part de la pleine charge", "Parte de la plena carga", "Anteil der Volllast"},
		explained{"part de la pleine charge ; 100 % à défaut", "parte de la plena carga; 100 % si se omite", "Anteil der vollen Leistung; 100 %, wenn nichts gesagt ist"}},
	"boiler.rated[].efficiency": {
		entry{"Efficiency", "Rendement", "Rendimiento", "Wirkungsgrad"},
		explained{"rendement déclaré ; plus de 100 % seulement sur PCI", "rendimiento declarado; más del 100 % solo sobre PCI", "angegebener Wirkungsgrad; über 100 % nur auf den Heizwert bezogen"}},
	"boiler.rated[].basis": {
		entry{"Counted against", "Rapporté au", "Referido al", "Bezogen auf"},
		explained{"rapporté au pouvoir calorifique supérieur (PCS) ou inférieur (PCI) ; PCS à défaut", "referido al poder calorífico superior (PCS) o inferior (PCI); PCS si se omite", "bezogen auf den Brennwert oder auf den Heizwert; Brennwert, wenn nichts gesagt ist"}},

	"separator": {
		entry{"Hydraulic separation", "Découplage hydraulique", "Separación hidráulica", "Hydraulische Trennung"},
		explained{"bouteille de découplage ou tés rapprochés", "separador hidráulico o tes próximas", "hydraulische Weiche oder eng gesetzte T-Stücke"}},
	"separator.kind": {
		entry{"What separates", "Ce qui découple", "Qué separa", "Was trennt"},
		explained{"ce qui sépare la chaudière des circuits", "lo que separa la caldera de los circuitos", "was Kessel und Heizkreise trennt"}},
	"separator.sensor": {
		entry{"Its sensor is wired", "Raccordement de sa sonde", "Conexión de su sonda", "Anschluss des Fühlers"},
		explained{"à quoi sa sonde est raccordée ; elle-même se trouve après le découplage, sur le départ commun des circuits", "a qué está conectada su sonda; la sonda está detrás de la separación, en la impulsión común de los circuitos", "woran sein Temperaturfühler angeschlossen ist; der Fühler selbst sitzt hinter der Trennung, im gemeinsamen Vorlauf der Heizkreise"}},
	"separator.boiler_flow": {
		entry{"Flow of the boiler’s pump", "Débit côté chaudière", "Caudal del lado caldera", "Durchfluss der Kesselpumpe"},
		explained{"débit du circulateur de la chaudière, de son côté ; celui des circuits à défaut", "caudal del circulador de la caldera, en su lado; el de los circuitos si se omite", "Durchfluss der Kesselpumpe auf der Kesselseite; der der Heizkreise, wenn nichts gesagt ist"}},
	"separator.volume": {
		entry{"Water in the buffer", "Volume du ballon tampon", "Volumen de inercia", "Inhalt des Puffers"},
		explained{"d’un ballon tampon : l’eau qu’il contient", "de un depósito de inercia: el agua que contiene", "eines Pufferspeichers: das Wasser, das er fasst"}},

	"outdoor_sensor": {
		entry{"Outdoor sensor", "Sonde extérieure", "Sonda exterior", "Außenfühler"},
		explained{"la sonde de température extérieure", "la sonda de temperatura exterior", "der Fühler für die Außentemperatur"}},
	"outdoor_sensor.fitted": {
		entry{"Connected", "Raccordée", "Conectada", "Angeschlossen"},
		explained{"si elle est raccordée", "si está conectada", "ob er angeschlossen ist"}},
	"outdoor_sensor.place": {
		entry{"Where it is", "Emplacement", "Ubicación", "Wo er sitzt"},
		explained{"où elle se trouve", "dónde está", "an welcher Wand er sitzt"}},
}
