package words

// engineCautions are what keeps people and houses from harm. They are said whole or not
// at all, and first of all.
var engineCautions = map[string]wording{
	"This sheet gives settings, not permission: local code, the maker's instructions and licensed practice come first, above all for gas, flue, pressure, electricity and hot water.": {
		"Cette feuille donne des réglages, pas une autorisation : les règles locales, la notice du fabricant et les métiers habilités passent avant, surtout pour le gaz, les fumées, la pression, l’électricité et l’eau chaude.",
		"Esta hoja da ajustes, no permisos: la normativa local, las instrucciones del fabricante y los profesionales autorizados van primero, sobre todo en gas, humos, presión, electricidad y agua caliente.",
		"Dieses Blatt gibt Einstellungen, keine Erlaubnis: örtliche Vorschriften, die Anleitung des Herstellers und zugelassene Fachleute gehen vor, vor allem bei Gas, Abgas, Druck, Strom und Warmwasser."},
	"Condensate must drain freely and must not freeze; neutralise it where local code asks.": {
		"Les condensats doivent s’écouler librement et ne pas geler ; les neutraliser là où les règles locales le demandent.",
		"El condensado debe evacuarse libremente y no helarse; neutralícelo donde lo pida la normativa local.",
		"Kondensat muss frei ablaufen und darf nicht gefrieren; neutralisieren, wo örtliche Vorschriften es verlangen."},
	"The survey does not say what kind of boiler this is; it is taken as condensing.": {
		"Le relevé ne dit pas de quel type est la chaudière ; elle est prise pour une chaudière à condensation.",
		"La inspección no dice de qué tipo es la caldera; se toma como de condensación.",
		"Die Aufnahme sagt nicht, was für ein Kessel das ist; er gilt hier als Brennwertkessel."},
	"One that must not condense needs its return kept warm: say boiler › kind.": {
		"Une chaudière qui ne doit pas condenser a besoin d’un retour chaud : remplir Chaudière › Type.",
		"Una que no debe condensar necesita el retorno caliente: indique Caldera › Tipo.",
		"Einer, der nicht kondensieren darf, braucht einen warmen Rücklauf: Heizkessel › Art angeben."},

	"Electricity: switch off and lock out before wiring sensors, pumps or valves; follow local code.": {
		"Électricité : couper et consigner avant de raccorder sondes, circulateurs ou vannes ; suivre les règles locales.",
		"Electricidad: corte y bloquee antes de conectar sondas, bombas o válvulas; siga la normativa local.",
		"Strom: abschalten und gegen Wiedereinschalten sichern, bevor Fühler, Pumpen oder Ventile angeschlossen werden; örtliche Vorschriften befolgen."},
	"Electricity: switch off and lock out before taking a sensor's wires off the control.": {
		"Électricité : couper et consigner avant de débrancher les fils d’une sonde de la régulation.",
		"Electricidad: corte y bloquee antes de soltar los cables de una sonda de la regulación.",
		"Strom: abschalten und gegen Wiedereinschalten sichern, bevor die Drähte eines Fühlers von der Regelung gelöst werden."},
	"Listed mixing valve; local code first.": {
		"Mitigeur thermostatique certifié ; les règles locales d’abord.",
		"Válvula mezcladora homologada; la normativa local primero.",
		"Geprüfter thermischer Mischer; örtliche Vorschriften gehen vor."},
	"Listed mixing valve, local code first.": {
		"Mitigeur thermostatique certifié, les règles locales d’abord.",
		"Válvula mezcladora homologada, la normativa local primero.",
		"Geprüfter thermischer Mischer, örtliche Vorschriften gehen vor."},
	"Scald: %s burns in under 5 s, a child sooner.": {
		"Brûlure : %s brûle en moins de 5 s, un enfant plus vite.",
		"Quemaduras: %s quema en menos de 5 s, a un niño antes.",
		"Verbrühung: %s verbrennen in weniger als 5 s, ein Kind noch schneller."},
	"Scald: %s burns in under 5 s; below it legionella grow.": {
		"Brûlure : %s brûle en moins de 5 s ; en dessous, les légionelles se développent.",
		"Quemaduras: %s quema en menos de 5 s; por debajo crece la legionela.",
		"Verbrühung: %s verbrennen in weniger als 5 s; darunter wachsen Legionellen."},
	"Scald: at that hour the taps get %s unless a listed mixing valve holds it back.": {
		"Brûlure : à cette heure les robinets reçoivent %s, sauf si un mitigeur certifié retient.",
		"Quemaduras: a esa hora los grifos reciben %s, salvo que una válvula mezcladora homologada lo impida.",
		"Verbrühung: zu dieser Stunde bekommen die Zapfstellen %s, wenn kein geprüfter Mischer es zurückhält."},
	"Legionella grow in water stored below %s, fastest at %s.": {
		"Les légionelles se développent dans l’eau stockée sous %s, le plus vite entre %s.",
		"La legionela crece en agua almacenada por debajo de %s, con más rapidez de %s.",
		"Legionellen wachsen in Wasser, das unter %s gespeichert wird, am schnellsten bei %s."},
	"Floors: above %s slabs crack.": {
		"Planchers : au-dessus de %s la chape se fissure.",
		"Suelos: por encima de %s la losa se agrieta.",
		"Fußböden: über %s reißt der Estrich."},
	"Fit a separate limit that stops the pump; makers' limits first.": {
		"Poser une sécurité indépendante qui arrête le circulateur ; les limites des fabricants d’abord.",
		"Monte un limitador independiente que pare la bomba; los límites de los fabricantes primero.",
		"Einen eigenen Begrenzer einbauen, der die Pumpe abschaltet; Grenzen der Hersteller gehen vor."},
	"A floor needs a high limit of its own that stops its pump, for the day the valve sticks.": {
		"Un plancher a besoin d’une sécurité haute à lui, qui arrête son circulateur le jour où la vanne se bloque.",
		"Un suelo necesita su propio límite superior que pare su bomba, para el día en que la válvula se agarrote.",
		"Ein Fußboden braucht einen eigenen Begrenzer, der seine Pumpe abschaltet, für den Tag, an dem der Mischer klemmt."},
	"A floor without a mixing valve gets the hotter water undiluted once zones shut: fit a limit of its own that stops its pump.": {
		"Un plancher sans vanne mélangeuse reçoit l’eau plus chaude non diluée dès que des zones ferment : poser une sécurité à lui, qui arrête son circulateur.",
		"Un suelo sin válvula mezcladora recibe el agua más caliente sin diluir cuando cierran zonas: monte un límite propio que pare su bomba.",
		"Ein Fußboden ohne Mischer bekommt das heißere Wasser unverdünnt, sobald Zonen schließen: einen eigenen Begrenzer einbauen, der seine Pumpe abschaltet."},
	"Gas, carbon monoxide: only a licensed person with an analyser, as maker and local code say.": {
		"Gaz, monoxyde de carbone : seulement une personne habilitée avec un analyseur, selon le fabricant et les règles locales.",
		"Gas, monóxido de carbono: solo una persona autorizada con analizador, según el fabricante y la normativa local.",
		"Gas, Kohlenmonoxid: nur eine zugelassene Fachkraft mit Messgerät, nach Hersteller und örtlichen Vorschriften."},
	"Gas pressure is for a licensed person; the rating plate comes first.": {
		"La pression du gaz est l’affaire d’une personne habilitée ; la plaque signalétique prime.",
		"La presión del gas es cosa de una persona autorizada; la placa de características va primero.",
		"Am Gasdruck arbeitet nur eine zugelassene Fachkraft; das Typenschild geht vor."},
	"Every other gas appliance off, pilot flames too.": {
		"Tous les autres appareils à gaz éteints, veilleuses comprises.",
		"Todos los demás aparatos de gas apagados, también los pilotos.",
		"Alle anderen Gasgeräte aus, auch Zündflammen."},
	"Carbon monoxide kills without a smell.": {
		"Le monoxyde de carbone tue sans odeur.", "El monóxido de carbono mata sin olor.", "Kohlenmonoxid tötet ohne Geruch."},
	"Combustion is set only by a licensed person with a calibrated analyser.": {
		"La combustion n’est réglée que par une personne habilitée, avec un analyseur étalonné.",
		"La combustión solo la ajusta una persona autorizada con un analizador calibrado.",
		"Die Verbrennung stellt nur eine zugelassene Fachkraft mit kalibriertem Messgerät ein."},
	"Fan-assisted and modulating burners follow their maker's own table, which outranks any rule; so does the local authority.": {
		"Les brûleurs à air soufflé et modulants suivent la table de leur fabricant, qui prime sur toute règle ; l’autorité locale aussi.",
		"Los quemadores con ventilador y modulantes siguen la tabla de su fabricante, que prevalece sobre toda regla; también la autoridad local.",
		"Gebläse- und modulierende Brenner folgen der Tabelle ihres Herstellers, die jeder Regel vorgeht; ebenso die örtliche Behörde."},
	"Condensate is acid: drain, neutraliser and frost protection as maker and local code say.": {
		"Les condensats sont acides : évacuation, neutralisation et hors-gel selon le fabricant et les règles locales.",
		"El condensado es ácido: desagüe, neutralizador y protección antihielo según el fabricante y la normativa local.",
		"Kondensat ist sauer: Ablauf, Neutralisation und Frostschutz nach Hersteller und örtlichen Vorschriften."},
	"Frost: works only while power and fuel last; guards no water pipe and no outdoor condensate drain.": {
		"Gel : n’agit que tant qu’il y a du courant et du combustible ; ne protège ni tuyau d’eau ni évacuation de condensats à l’extérieur.",
		"Heladas: solo funciona mientras haya corriente y combustible; no protege tuberías de agua ni desagües de condensado exteriores.",
		"Frost: wirkt nur, solange Strom und Brennstoff da sind; schützt weder Wasserleitungen noch Kondensatabläufe im Freien."},
	"Hot water under pressure: open only cold and without pressure.": {
		"Eau chaude sous pression : n’ouvrir qu’à froid et sans pression.",
		"Agua caliente a presión: abra solo en frío y sin presión.",
		"Heißes Wasser unter Druck: nur kalt und drucklos öffnen."},
	"Never plug or cap the relief valve.": {
		"Ne jamais boucher la soupape de sécurité.", "No tapone nunca la válvula de seguridad.", "Das Sicherheitsventil niemals verschließen."},
	"Fill only through the backflow preventer that local code asks for; leave no fill hose connected.": {
		"Ne remplir qu’à travers le disconnecteur que demandent les règles locales ; ne laisser aucun flexible de remplissage branché.",
		"Llene solo a través del dispositivo antirretorno que pida la normativa local; no deje conectada ninguna manguera de llenado.",
		"Nur über den Systemtrenner füllen, den örtliche Vorschriften verlangen; keinen Füllschlauch angeschlossen lassen."},
	"Check the gas with no water pressure on the vessel, the system cold.": {
		"Contrôler le gaz du vase sans pression d’eau, l’installation froide.",
		"Compruebe el gas del vaso sin presión de agua y con la instalación fría.",
		"Den Vordruck ohne Wasserdruck auf dem Gefäß prüfen, bei kalter Anlage."},
	"Draining and venting hot water scalds: let it cool below %s first.": {
		"Vidanger et purger de l’eau chaude brûle : la laisser d’abord refroidir sous %s.",
		"Vaciar y purgar agua caliente quema: deje que baje antes de %s.",
		"Ablassen und Entlüften von heißem Wasser verbrüht: erst unter %s abkühlen lassen."},
	"Ethylene glycol is poisonous: nowhere near drinking water.": {
		"L’éthylène glycol est toxique : jamais à proximité de l’eau potable.",
		"El etilenglicol es venenoso: nunca cerca del agua potable.",
		"Ethylenglykol ist giftig: niemals in der Nähe von Trinkwasser."},
	"Never mix kinds; the maker's sheet outranks.": {
		"Ne jamais mélanger les types ; la fiche du fabricant prime.",
		"No mezcle nunca tipos; la ficha del fabricante prevalece.",
		"Niemals Arten mischen; das Blatt des Herstellers geht vor."},
	"Cold return rots a boiler not built to condense and soots its flue: carbon monoxide.": {
		"Un retour froid ronge une chaudière qui n’est pas faite pour condenser et encrasse son conduit : monoxyde de carbone.",
		"Un retorno frío corroe una caldera que no está hecha para condensar y llena de hollín su chimenea: monóxido de carbono.",
		"Kalter Rücklauf zerfrisst einen Kessel, der nicht kondensieren darf, und verrußt seinen Abgasweg: Kohlenmonoxid."},
	"The maker's least return temperature outranks this figure; the vent must suit the flue gas.": {
		"La température de retour minimale du fabricant prime sur ce chiffre ; le conduit doit convenir aux fumées.",
		"La temperatura mínima de retorno del fabricante prevalece sobre esta cifra; la chimenea debe ser apta para los humos.",
		"Die kleinste Rücklauftemperatur des Herstellers geht dieser Zahl vor; die Abgasanlage muss zum Abgas passen."},
	"The maker's least return comes first.": {
		"Le retour minimal du fabricant prime.", "El retorno mínimo del fabricante va primero.", "Der kleinste Rücklauf des Herstellers geht vor."},
}
