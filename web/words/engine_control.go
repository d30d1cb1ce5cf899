package words

// engineControl are the sentences beside what is entered at the control: clock, circuits,
// curve, rooms and hours, frost.
var engineControl = map[string]wording{
	"Programs, hot-water hours and the fault log hang on it.": {
		"Programmes, heures d’eau chaude et journal des défauts en dépendent.",
		"De ella dependen los programas, las horas de agua caliente y el registro de averías.",
		"Programme, Warmwasserzeiten und Fehlerspeicher hängen daran."},
	"An hour wrong shows as a house that is cold at breakfast; see whether the clock changes to summer time by itself.": {
		"Une heure d’erreur, c’est une maison froide au petit déjeuner ; voir si l’horloge passe seule à l’heure d’été.",
		"Una hora de error se nota en una casa fría al desayuno; mire si el reloj cambia solo a la hora de verano.",
		"Eine falsche Stunde zeigt sich als kaltes Haus beim Frühstück; prüfen, ob die Uhr selbst auf Sommerzeit umstellt."},
	"All values here are in the control's own degrees and steps.": {
		"Toutes les valeurs sont dans les degrés et les pas de la régulation.",
		"Todos los valores están en los grados y pasos de la regulación.",
		"Alle Werte stehen in den Graden und Schritten der Regelung."},
	"%s on the design day, about %s of water, %s drop.": {
		"%s le jour de base, environ %s d’eau, chute de %s.",
		"%s el día de proyecto, unos %s de agua, salto de %s.",
		"%s am Auslegungstag, etwa %s Wasser, Spreizung %s."},
	"Needs a sensor behind its valve.": {
		"Demande une sonde derrière sa vanne.", "Necesita una sonda detrás de su válvula.", "Braucht einen Fühler hinter dem Mischer."},
	"A pump or valve wired to the wrong output heats the wrong rooms: run each alone and feel the pipes.": {
		"Un circulateur ou une vanne sur la mauvaise sortie chauffe les mauvaises pièces : faire marcher chacun seul et toucher les tubes.",
		"Una bomba o válvula en la salida equivocada calienta otras habitaciones: haga funcionar cada una sola y toque los tubos.",
		"Eine Pumpe oder ein Mischer am falschen Ausgang heizt die falschen Räume: jede einzeln laufen lassen und die Rohre fühlen."},
	"Reset is offered only with it.": {
		"Sans elle, pas de loi d’eau.", "Sin ella no se ofrece la curva.", "Nur mit ihm gibt es eine witterungsgeführte Regelung."},
	"Shaded north wall, %s from vents and windows, above the snow.": {
		"Mur nord à l’ombre, à %s des bouches et fenêtres, au-dessus de la neige.",
		"Pared norte a la sombra, a %s de rejillas y ventanas, por encima de la nieve.",
		"Schattige Nordwand, %s von Auslässen und Fenstern, über der Schneehöhe."},
	"A sensor that reads too warm (sun, a vent, a warm wall) starves the house.": {
		"Une sonde qui lit trop chaud (soleil, bouche, mur chaud) laisse la maison avoir froid.",
		"Una sonda que lee de más (sol, una rejilla, una pared caliente) deja fría la casa.",
		"Ein Fühler, der zu warm misst (Sonne, Auslass, warme Wand), lässt das Haus frieren."},
	"One that reads too cold overheats it and spoils condensing.": {
		"Une qui lit trop froid la surchauffe et gâche la condensation.",
		"Una que lee de menos la sobrecalienta y estropea la condensación.",
		"Einer, der zu kalt misst, überheizt es und verdirbt die Kondensation."},
	"Until it is connected run the circuits at a constant supply, the value for the design day, and say so on the sheet: it keeps the house warm and wastes fuel.": {
		"Tant qu’elle n’est pas raccordée, faire marcher les circuits à départ constant, la valeur du jour de base, et le noter sur la feuille : la maison reste chaude mais gaspille du combustible.",
		"Hasta conectarla, lleve los circuitos con impulsión constante, el valor del día de proyecto, y anótelo en la hoja: la casa sigue caliente pero se derrocha combustible.",
		"Bis er angeschlossen ist, die Heizkreise mit festem Vorlauf fahren, dem Wert für den Auslegungstag, und es auf dem Blatt vermerken: das hält das Haus warm und verschwendet Brennstoff."},
	"The sensor behind the separator sees what the circuits get.": {
		"La sonde derrière le découplage voit ce que reçoivent les circuits.",
		"La sonda detrás del separador ve lo que reciben los circuitos.",
		"Der Fühler hinter der Weiche sieht, was die Heizkreise bekommen."},
	"No separator: the boiler's own sensor sees what the circuits get.": {
		"Pas de découplage : la sonde de la chaudière voit ce que reçoivent les circuits.",
		"Sin separador: la sonda de la caldera ve lo que reciben los circuitos.",
		"Keine Trennung: der Kesselfühler sieht, was die Heizkreise bekommen."},
	"A sensor said to be there but not connected: the control shows a fault or steers by the boiler.": {
		"Une sonde déclarée mais non raccordée : la régulation affiche un défaut ou se règle sur la chaudière.",
		"Una sonda declarada pero sin conectar: la regulación da un fallo o se guía por la caldera.",
		"Ein Fühler, der angegeben, aber nicht angeschlossen ist: die Regelung meldet einen Fehler oder richtet sich nach dem Kessel."},
	"Said to be absent though it is there: the boiler holds its own temperature, and the circuits run cool when they draw more than it sends.": {
		"Déclarée absente alors qu’elle est là : la chaudière tient sa propre température, et les circuits sont tièdes quand ils tirent plus qu’elle n’envoie.",
		"Declarada ausente aunque está: la caldera mantiene su propia temperatura, y los circuitos van fríos cuando toman más de lo que envía.",
		"Als fehlend angegeben, obwohl er da ist: der Kessel hält seine eigene Temperatur, und die Heizkreise laufen kühl, wenn sie mehr ziehen, als er schickt."},
	"Said to be absent though it is there: on the design day the circuits get %s less than their curve.": {
		"Déclarée absente alors qu’elle est là : le jour de base les circuits reçoivent %s de moins que leur courbe.",
		"Declarada ausente aunque está: el día de proyecto los circuitos reciben %s menos que su curva.",
		"Als fehlend angegeben, obwohl er da ist: am Auslegungstag bekommen die Heizkreise %s weniger als ihre Kurve."},

	"It only picks presets; the figures below replace them.": {
		"Ne choisit que des préréglages ; les chiffres ci-dessous les remplacent.",
		"Solo elige valores previos; las cifras de abajo los sustituyen.",
		"Wählt nur Voreinstellungen; die Werte darunter ersetzen sie."},
	"A preset for radiators on a floor circuit runs it far too hot.": {
		"Un préréglage de radiateurs sur un plancher le fait marcher bien trop chaud.",
		"Un ajuste previo de radiadores en un suelo lo lleva demasiado caliente.",
		"Eine Voreinstellung für Heizkörper fährt eine Fußbodenheizung viel zu heiß."},
	"A preset for floors leaves radiators lukewarm in the cold.": {
		"Un préréglage de plancher laisse les radiateurs tièdes par grand froid.",
		"Un ajuste previo de suelo deja los radiadores tibios con frío.",
		"Eine Voreinstellung für Fußböden lässt Heizkörper in der Kälte lau."},
	"If the control does not ask, there is nothing to enter.": {
		"Si la régulation ne le demande pas, rien à saisir.", "Si la regulación no lo pregunta, no hay nada que introducir.", "Fragt die Regelung nicht danach, ist nichts einzugeben."},
	"%v needs %s to hold %s, the hottest of the circuit.": {
		"%s : il faut %s pour tenir %s, le plus chaud du circuit.",
		"%s necesita %s para mantener %s, lo más caliente del circuito.",
		"%s braucht %s, um %s zu halten, am meisten im Heizkreis."},
	"%s more makes %v settle at %s with its valves open; valves throttle, the return rises and the boiler condenses less.": {
		"%s de plus et %s monte à %s vannes ouvertes ; les vannes étranglent, le retour monte et la chaudière condense moins.",
		"Con %s más, %s llega a %s con sus válvulas abiertas; las válvulas estrangulan, el retorno sube y la caldera condensa menos.",
		"%s mehr, und %s pendelt sich bei offenen Ventilen auf %s ein; Ventile drosseln, der Rücklauf steigt und der Kessel kondensiert weniger."},
	"%s less leaves %v at %s on the design day.": {
		"%s de moins laisse %s à %s le jour de base.", "%s menos deja %s a %s el día de proyecto.", "%s weniger lässt %s am Auslegungstag bei %s."},
	"%s less is hardly felt: %v still reaches %s on the design day.": {
		"%s de moins se sent à peine : %s atteint encore %s le jour de base.",
		"%s menos apenas se nota: %s aún llega a %s el día de proyecto.",
		"%s weniger merkt man kaum: %s erreicht am Auslegungstag noch %s."},
	"Degrees of supply for each degree that it gets colder.": {
		"Degrés de départ pour chaque degré de froid en plus.", "Grados de impulsión por cada grado que baja fuera.", "Grad Vorlauf je Grad, um das es kälter wird."},
	"Right in spring, too hot in deep cold.":  {"Juste au printemps, trop chaud par grand froid.", "Bien en primavera, demasiado calor con mucho frío.", "Im Frühling richtig, bei strengem Frost zu heiß."},
	"Right in spring, too cold in deep cold.": {"Juste au printemps, trop froid par grand froid.", "Bien en primavera, demasiado frío con mucho frío.", "Im Frühling richtig, bei strengem Frost zu kalt."},
	"Lifts or lowers the whole curve alike.":  {"Monte ou baisse toute la courbe.", "Sube o baja toda la curva por igual.", "Hebt oder senkt die ganze Kurve gleich."},
	"Too warm at every outdoor temperature.":  {"Trop chaud à toute température extérieure.", "Demasiado calor con cualquier temperatura exterior.", "Bei jeder Außentemperatur zu warm."},
	"Too cool at every outdoor temperature.":  {"Trop frais à toute température extérieure.", "Demasiado fresco con cualquier temperatura exterior.", "Bei jeder Außentemperatur zu kühl."},
	"The control runs straight from point to point.": {
		"La régulation va en ligne droite d’un point à l’autre.", "La regulación va en línea recta de punto a punto.", "Die Regelung geht gerade von Punkt zu Punkt."},
	"Too warm about there.": {"Trop chaud dans ces parages.", "Demasiado calor hacia ahí.", "In dieser Gegend zu warm."},
	"Too cool about there.": {"Trop frais dans ces parages.", "Demasiado fresco hacia ahí.", "In dieser Gegend zu kühl."},
	"Stuffy in spring and autumn, and a return too warm to condense.": {
		"Étouffant au printemps et en automne, et un retour trop chaud pour condenser.",
		"Sofocante en primavera y otoño, y un retorno demasiado caliente para condensar.",
		"Stickig im Frühling und Herbst, und ein Rücklauf, der zum Kondensieren zu warm ist."},
	"Cool in spring and autumn though warm in deep cold.": {
		"Frais au printemps et en automne, pourtant chaud par grand froid.",
		"Fresco en primavera y otoño, aunque caliente con mucho frío.",
		"Im Frühling und Herbst kühl, obwohl bei strengem Frost warm."},
	"No room is short between here and the mild point.": {
		"Aucune pièce ne manque de chaleur d’ici au point doux.", "Ninguna habitación queda corta de aquí al punto templado.", "Kein Raum bleibt zwischen hier und dem milden Punkt zu kühl."},
	"As near as limits and steps allow; see which room falls short.": {
		"Aussi près que limites et pas le permettent ; voir quelle pièce reste froide.",
		"Tan cerca como permiten límites y pasos; vea qué habitación queda corta.",
		"So nahe, wie Grenzen und Schritte zulassen; sehen, welcher Raum zu kühl bleibt."},
	"The design day, or as near as the control goes.": {
		"Le jour de base, ou au plus près que va la régulation.", "El día de proyecto, o lo más cerca que llega la regulación.", "Der Auslegungstag, oder so nahe die Regelung kommt."},
	"From here down the supply stands at its limit.": {
		"À partir d’ici, le départ reste à sa limite.", "De aquí hacia abajo la impulsión queda en su límite.", "Von hier abwärts steht der Vorlauf an seiner Grenze."},
	"Heating ends about here.": {"Le chauffage s’arrête à peu près ici.", "La calefacción termina más o menos aquí.", "Etwa hier endet das Heizen."},
	"What the emitters still need when it is mild.": {
		"Ce qu’il faut encore aux émetteurs par temps doux.", "Lo que aún necesitan los emisores con tiempo templado.", "Was die Heizflächen bei mildem Wetter noch brauchen."},
	"The control's cold point ends at %s and holds its supply beyond: it is set as if that were the design day of %s.": {
		"Le point froid de la régulation s’arrête à %s et garde son départ au-delà : il est réglé comme si c’était le jour de base de %s.",
		"El punto frío de la regulación acaba en %s y mantiene su impulsión más allá: se ajusta como si fuera el día de proyecto de %s.",
		"Der kalte Punkt der Regelung endet bei %s und hält darüber hinaus seinen Vorlauf: er ist so gestellt, als wäre das der Auslegungstag von %s."},
	"The bend of the emitters: above 1 the curve bulges upward.": {
		"La courbure des émetteurs : au-dessus de 1 la courbe se bombe vers le haut.", "La curvatura de los emisores: por encima de 1 la curva se abomba hacia arriba.", "Die Krümmung der Heizflächen: über 1 wölbt sich die Kurve nach oben."},
	"Too warm between the two points.": {"Trop chaud entre les deux points.", "Demasiado calor entre los dos puntos.", "Zwischen den beiden Punkten zu warm."},
	"Too cool between the two points.": {"Trop frais entre les deux points.", "Demasiado fresco entre los dos puntos.", "Zwischen den beiden Punkten zu kühl."},
	"The curve's own end; a higher one overheats in mild weather.": {
		"Le bas de la courbe ; plus haut, il surchauffe par temps doux.", "El final de la propia curva; más alto sobrecalienta con tiempo templado.", "Das Ende der Kurve selbst; höher überheizt bei mildem Wetter."},
	"Stuffy in mild weather, needless fuel.": {"Étouffant par temps doux, combustible inutile.", "Sofocante con tiempo templado, combustible de más.", "Bei mildem Wetter stickig, unnötiger Brennstoff."},
	"No harm to the rooms; the curve is above it anyway.": {
		"Sans dommage pour les pièces ; la courbe est de toute façon au-dessus.", "Sin daño para las habitaciones; la curva está por encima de todos modos.", "Den Räumen schadet es nicht; die Kurve liegt ohnehin darüber."},
	"Boiler and control go no lower; in mild weather the rooms' valves hold it back.": {
		"Chaudière et régulation ne descendent pas plus bas ; par temps doux, les vannes des pièces retiennent.", "Caldera y regulación no bajan más; con tiempo templado lo frenan las válvulas de las habitaciones.", "Kessel und Regelung gehen nicht tiefer; bei mildem Wetter halten die Ventile der Räume zurück."},
	"Condensate in boiler and flue: rust, soot, carbon monoxide.": {
		"Condensats dans la chaudière et le conduit : rouille, suie, monoxyde de carbone.", "Condensado en caldera y chimenea: óxido, hollín, monóxido de carbono.", "Kondensat in Kessel und Abgasweg: Rost, Ruß, Kohlenmonoxid."},
	"The boiler condenses: rust, soot, carbon monoxide.": {
		"La chaudière condense : rouille, suie, monoxyde de carbone.", "La caldera condensa: óxido, hollín, monóxido de carbono.", "Der Kessel kondensiert: Rost, Ruß, Kohlenmonoxid."},
	"Serves a night %s colder than the design day, no more.": {
		"Sert une nuit de %s plus froide que le jour de base, pas davantage.", "Sirve para una noche %s más fría que el día de proyecto, no más.", "Reicht für eine Nacht, die %s kälter ist als der Auslegungstag, nicht mehr."},
	"Held by %s.": {"Limité par %s.", "Limitada por %s.", "Begrenzt durch %s."},
	"The curve ends at %s outdoors and holds %s below: a colder night gets no hotter water.": {
		"La courbe finit à %s dehors et garde %s en dessous : une nuit plus froide n’a pas d’eau plus chaude.", "La curva acaba a %s en el exterior y mantiene %s por debajo: una noche más fría no recibe agua más caliente.", "Die Kurve endet bei %s außen und hält darunter %s: eine kältere Nacht bekommt kein heißeres Wasser."},
	"A stuck valve or a wrong curve is no longer held by it.": {
		"Une vanne bloquée ou une courbe fausse n’est plus retenue.", "Una válvula agarrotada o una curva errónea ya no queda frenada.", "Ein klemmender Mischer oder eine falsche Kurve wird nicht mehr aufgehalten."},
	"The curve is cut off in deep cold and the rooms cool.": {
		"La courbe est coupée par grand froid et les pièces se refroidissent.", "La curva queda cortada con mucho frío y las habitaciones se enfrían.", "Die Kurve wird bei strengem Frost gekappt, und die Räume kühlen aus."},
	"Too hot for the floor.": {"Trop chaud pour le plancher.", "Demasiado caliente para el suelo.", "Zu heiß für den Boden."},
	"On a limit thermostat of its own that stops the pump, not at the boiler: the boiler would be held below its dew point.": {
		"Sur un thermostat limiteur à part qui arrête le circulateur, non à la chaudière : elle serait tenue sous son point de rosée.", "En un termostato limitador propio que pare la bomba, no en la caldera: quedaría por debajo de su punto de rocío.", "An einem eigenen Begrenzungsthermostat, der die Pumpe abschaltet, nicht am Kessel: er würde unter seinem Taupunkt gehalten."},
	"No figure until a mixing valve stands in front of %v; see the stop.": {
		"Aucun chiffre tant qu’il n’y a pas de vanne mélangeuse devant %s ; voir l’arrêt.", "Ninguna cifra hasta que haya una válvula mezcladora delante de %s; vea el aviso de parada.", "Kein Wert, bevor ein Mischer vor %s sitzt; siehe den Halt."},
	"Then say so in the survey.": {
		"Le dire ensuite dans le relevé.", "Dígalo después en la inspección.", "Dann in der Aufnahme angeben."},

	"Above about %s people, appliances and some sun carry the house.": {
		"Au-dessus d’environ %s, habitants, appareils et un peu de soleil suffisent à la maison.", "Por encima de unos %s bastan personas, aparatos y algo de sol.", "Über etwa %s tragen Menschen, Geräte und etwas Sonne das Haus."},
	"Use the day's average if the control can.": {"Prendre la moyenne du jour si la régulation le permet.", "Use la media del día si la regulación puede.", "Den Tagesmittelwert nehmen, wenn die Regelung es kann."},
	"Pumps and burner run on mild days when nobody needs heat.": {
		"Circulateurs et brûleur tournent les jours doux où personne n’a besoin de chaleur.", "Bombas y quemador trabajan en días templados sin que nadie necesite calor.", "Pumpen und Brenner laufen an milden Tagen, an denen niemand Wärme braucht."},
	"The house is cool on grey mild days.": {"La maison est fraîche les jours doux et gris.", "La casa está fresca en días templados y grises.", "Das Haus ist an milden grauen Tagen kühl."},
	"The control cannot be set nearer: by hand, switch heating off above %s in spring.": {
		"La régulation ne se règle pas plus près : à la main, couper le chauffage au-dessus de %s au printemps.", "La regulación no se acerca más: a mano, apague la calefacción por encima de %s en primavera.", "Näher lässt sich die Regelung nicht stellen: im Frühling die Heizung von Hand über %s abschalten."},
	"The curve is worked out for it; cooler rooms are throttled.": {
		"La courbe est calculée pour elle ; les pièces plus fraîches sont étranglées.", "La curva está calculada para ella; las habitaciones más frescas se estrangulan.", "Die Kurve ist dafür berechnet; kühlere Räume werden gedrosselt."},
	"Each degree lifts the whole curve and costs about 3 to 6 % more fuel.": {
		"Chaque degré relève toute la courbe et coûte environ 3 à 6 % de combustible en plus.", "Cada grado sube toda la curva y cuesta un 3 a 6 % más de combustible.", "Jedes Grad hebt die ganze Kurve und kostet etwa 3 bis 6 % mehr Brennstoff."},
	"Each degree lowers the whole curve; the coldest room is felt first.": {
		"Chaque degré abaisse toute la courbe ; la pièce la plus froide se sent d’abord.", "Cada grado baja toda la curva; la habitación más fría se nota primero.", "Jedes Grad senkt die ganze Kurve; den kältesten Raum spürt man zuerst."},
	"The control cannot correct by a room sensor; the curve alone decides.": {
		"La régulation ne corrige pas par une sonde d’ambiance ; seule la courbe décide.", "La regulación no corrige con una sonda ambiente; solo decide la curva.", "Die Regelung kann nicht nach einem Raumfühler berichtigen; die Kurve allein entscheidet."},
	"The room stands for the circuit; keep its valves fully open.": {
		"La pièce représente le circuit ; garder ses vannes grandes ouvertes.", "La habitación representa al circuito; mantenga sus válvulas abiertas del todo.", "Der Raum steht für den Heizkreis; seine Ventile ganz offen lassen."},
	"One sunny or closed room steers the whole house; the supply hunts.": {
		"Une pièce ensoleillée ou fermée mène toute la maison ; le départ pompe.", "Una habitación soleada o cerrada gobierna toda la casa; la impulsión oscila.", "Ein sonniger oder abgesperrter Raum lenkt das ganze Haus; der Vorlauf pendelt."},
	"Gains are left to the room valves, which is their work.": {
		"Les apports sont laissés aux vannes des pièces, dont c’est le travail.", "Las ganancias quedan para las válvulas de habitación, que es su trabajo.", "Gewinne bleiben den Raumventilen überlassen, das ist ihre Arbeit."},
	"A reset boiler makes only what the house loses; a night's saving is paid back with hotter water.": {
		"Une chaudière sur loi d’eau ne fait que ce que la maison perd ; l’économie d’une nuit se repaie en eau plus chaude.", "Una caldera con curva solo produce lo que pierde la casa; el ahorro de la noche se paga con agua más caliente.", "Ein witterungsgeführter Kessel macht nur, was das Haus verliert; was die Nacht spart, wird mit heißerem Wasser zurückgezahlt."},
	"%d of %d points a day.": {"%d des %d commutations par jour.", "%d de %d conmutaciones al día.", "%d von %d Schaltpunkten am Tag."},
	"%v: hold, no program.":  {"%s : constant, sans programme.", "%s: constante, sin programa.", "%s: durchgehend, kein Programm."},
	"Warming begins %s early; below %s outdoors hold instead.": {
		"La remise en chauffe commence %s plus tôt ; sous %s dehors, garder constant.", "El calentamiento empieza %s antes; por debajo de %s en el exterior, mantener.", "Das Aufheizen beginnt %s früher; unter %s außen stattdessen durchheizen."},
	"The deeper setback that was wished is held to %s.": {
		"L’abaissement plus fort souhaité est limité à %s.", "La bajada mayor que se deseaba queda en %s.", "Die gewünschte tiefere Absenkung ist auf %s begrenzt."},
	"A deep setback is cold at breakfast and drives the boiler to its limit.": {
		"Un fort abaissement donne froid au petit déjeuner et pousse la chaudière à sa limite.", "Una bajada fuerte deja frío al desayuno y lleva la caldera a su límite.", "Eine tiefe Absenkung ist kalt beim Frühstück und treibt den Kessel an seine Grenze."},
	"Held day and night costs little: on supply setback a monitored building saved nothing that could be seen.": {
		"Constant jour et nuit coûte peu : un bâtiment suivi n’a rien économisé de visible par abaissement du départ.", "Constante día y noche cuesta poco: en un edificio vigilado, bajar la impulsión no ahorró nada apreciable.", "Tag und Nacht durchgehend kostet wenig: in einem überwachten Gebäude sparte das Absenken des Vorlaufs nichts Erkennbares."},
	"A setback was wished; the control has no program, so hold one temperature or lower rooms at their own valves.": {
		"Un abaissement était souhaité ; la régulation n’a pas de programme : garder une température ou abaisser aux vannes des pièces.", "Se deseaba una bajada; la regulación no tiene programa: mantenga una temperatura o baje en las válvulas de las habitaciones.", "Gewünscht war eine Absenkung; die Regelung hat kein Programm: eine Temperatur halten oder Räume an ihren Ventilen absenken."},
	"Above freezing: sensors err, and wind chills a pipe.": {
		"Au-dessus de zéro : les sondes se trompent, et le vent refroidit un tube.", "Por encima de cero: las sondas yerran y el viento enfría un tubo.", "Über dem Gefrierpunkt: Fühler irren, und Wind kühlt ein Rohr aus."},
	"It alone knows when pipes in %s are in danger.": {
		"Elle seule sait quand les tubes sont en danger : %s.", "Solo ella sabe cuándo peligran los tubos: %s.", "Nur er weiß, wann Leitungen in Gefahr sind: %s."},
	"No room sensor watches the house, so this one must.": {
		"Aucune sonde d’ambiance ne veille sur la maison : c’est donc à celle-ci.", "Ninguna sonda ambiente vigila la casa; debe hacerlo esta.", "Kein Raumfühler wacht über das Haus, also muss es dieser."},
	"The control can watch only a room, and no room sensor is connected.": {
		"La régulation ne peut surveiller qu’une pièce, et aucune sonde d’ambiance n’est raccordée.", "La regulación solo puede vigilar una habitación, y no hay sonda ambiente conectada.", "Die Regelung kann nur einen Raum überwachen, und kein Raumfühler ist angeschlossen."},
	"Pumps run through mild nights.":        {"Les circulateurs tournent par nuits douces.", "Las bombas trabajan en noches templadas.", "Pumpen laufen durch milde Nächte."},
	"A pipe freezes before anything stirs.": {"Un tube gèle avant que rien ne bouge.", "Un tubo se hiela antes de que algo se mueva.", "Ein Rohr gefriert, bevor sich etwas rührt."},
	"Unprotected: everything.":              {"Sans protection : tout.", "Sin protección: todo.", "Ungeschützt: alles."},
	"Unprotected: the pipes in %s.":         {"Sans protection : les tubes, %s.", "Sin protección: los tubos, %s.", "Ungeschützt: die Leitungen, %s."},
	"Unprotected: rooms that cool by a fault in mild weather, shut-off rooms, water pipes in outer walls.": {
		"Sans protection : pièces refroidies par une panne par temps doux, pièces fermées, tuyaux d’eau dans les murs extérieurs.", "Sin protección: habitaciones que se enfrían por una avería con tiempo templado, habitaciones cerradas, tuberías de agua en muros exteriores.", "Ungeschützt: Räume, die bei mildem Wetter durch einen Fehler auskühlen, abgesperrte Räume, Wasserleitungen in Außenwänden."},
	"Until a room sensor is connected, leave the heating on in winter and never on standby.": {
		"Tant qu’aucune sonde d’ambiance n’est raccordée, laisser le chauffage en marche l’hiver, jamais en veille.", "Hasta conectar una sonda ambiente, deje la calefacción encendida en invierno y nunca en espera.", "Bis ein Raumfühler angeschlossen ist, die Heizung im Winter eingeschaltet lassen, nie auf Bereitschaft."},
	"A room sensor cannot see the pipes in %s: insulate and heat-trace them, or fill with antifreeze, as local code allows.": {
		"Une sonde d’ambiance ne voit pas ces tubes (%s) : les calorifuger et les tracer, ou remplir d’antigel, selon les règles locales.", "Una sonda ambiente no ve esos tubos (%s): aíslelos y ponga cable calefactor, o llene con anticongelante, según la normativa local.", "Ein Raumfühler sieht diese Leitungen nicht (%s): dämmen und begleitheizen oder mit Frostschutz füllen, wie örtliche Vorschriften es erlauben."},
	"Design day, boiler off.": {"Jour de base, chaudière arrêtée.", "Día de proyecto, caldera parada.", "Auslegungstag, Kessel aus."},
	"%v: %s in %s.":           {"%s : %s en %s.", "%s: %s en %s.", "%s: %s in %s."},
	"An empty house without an alarm has only this long before pipes burst.": {
		"Une maison vide sans alarme n’a que ce temps avant que des tubes éclatent.", "Una casa vacía sin alarma solo tiene este tiempo antes de que revienten tubos.", "Ein leeres Haus ohne Alarm hat nur diese Zeit, bevor Rohre platzen."},
}
