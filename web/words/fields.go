package words

// The fields of a job: each with its name in four languages, and with the sentence that
// explains it in those other than English. Their vocabulary is that of the trade, not of
// a dictionary, and a test asks for every field that a document can hold.

// fields are the fields of a job by their pattern, and the entries of its lists by
// theirs, which a page heads with a name and needs no explanation for.
var fields = join(
	documentFields, houseFields, roomFields,
	under("rooms[].emitters[].", emitterFields),
	circuitFields,
	under("circuits[].emitters[].", emitterFields),
	boilerFields, waterFields, sensorFields, habitFields, controlFields, foundFields, learnedFields,
	under("control.curve.two_points.", pointFields),
	under("control.curve.bent.", pointFields),
	spans,
)

// explained is the sentence for a field in French, Spanish and German.
type explained = [3]string

func join(parts ...map[string]field) map[string]field {
	all := map[string]field{}
	for _, part := range parts {
		for pattern, f := range part {
			if _, twice := all[pattern]; twice {
				panic("words: " + pattern + " is named twice")
			}
			all[pattern] = f
		}
	}
	return all
}

// under puts the fields of a group where the group stands in the document.
func under(prefix string, group map[string]field) map[string]field {
	placed := map[string]field{}
	for name, f := range group {
		placed[prefix+name] = f
	}
	return placed
}

// documentFields are those of the job as a whole.
var documentFields = map[string]field{
	"curvewright": {
		entry{"Version of the document", "Version du document", "Versión del documento", "Version des Dokuments"},
		explained{"version de ce document ; 1", "versión de este documento; 1", "Version dieses Dokuments; 1"}},
	"job": {
		entry{"Name of the job", "Nom du chantier", "Nombre del trabajo", "Name des Auftrags"},
		explained{"nom du chantier", "nombre del trabajo", "Name des Auftrags"}},
	"place": {
		entry{"Place", "Lieu", "Lugar", "Ort"},
		explained{"où se trouve la maison, pour l’en-tête de la feuille", "dónde está la casa, para el encabezado de la hoja", "wo das Haus steht, für den Kopf des Blattes"}},
	"surveyed": {
		entry{"Day of the survey", "Jour du relevé", "Día de la inspección", "Tag der Aufnahme"},
		explained{"jour du relevé, comme 2026-11-25", "día de la inspección, como 2026-11-25", "Tag der Aufnahme, wie 2026-11-25"}},
	"by": {
		entry{"Surveyed by", "Relevé fait par", "Inspección hecha por", "Aufgenommen von"},
		explained{"qui a fait le relevé", "quién hizo la inspección", "wer aufgenommen hat"}},
	"display": {
		entry{"Units for reading", "Unités de lecture", "Unidades de lectura", "Einheiten zum Lesen"},
		explained{"unités dans lesquelles on lit le chantier : américaines ou métriques", "unidades en que se lee el trabajo: estadounidenses o métricas", "Einheiten, in denen der Auftrag gelesen wird: amerikanische oder metrische"}},
	"notes": {
		entry{"Notes", "Notes", "Notas", "Notizen"},
		explained{"tout ce qui mérite d’être gardé", "todo lo que merezca guardarse", "alles, was festgehalten gehört"}},
	"site": {
		entry{"Climate", "Climat", "Clima", "Klima"},
		explained{"le climat du lieu", "el clima del lugar", "das Klima des Ortes"}},
	"site.design_outdoor": {
		entry{"Design outdoor temperature", "Température extérieure de base", "Temperatura exterior de proyecto", "Norm-Außentemperatur"},
		explained{"température extérieure du jour de base (99 % ou règles locales)", "temperatura exterior del día de proyecto (99 % o normativa local)", "Außentemperatur des Auslegungstages (99 % oder örtliche Vorschrift)"}},
	"site.annual_mean": {
		entry{"Mean of the year", "Moyenne annuelle", "Media anual", "Jahresmittel"},
		explained{"température extérieure moyenne de l’année", "temperatura exterior media del año", "mittlere Außentemperatur des Jahres"}},
	"site.elevation": {
		entry{"Height above sea level", "Altitude", "Altitud", "Höhe über dem Meer"},
		explained{"altitude au-dessus du niveau de la mer", "altura sobre el nivel del mar", "Höhe über dem Meeresspiegel"}},
}
