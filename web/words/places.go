package words

// places are the names of the parts of the app and what is done in them.
var places = map[string]entry{
	"app.tagline": {"Settings for a hydronic heating control, each with its reason", "Réglages d’une régulation de chauffage à eau, chacun avec sa raison", "Ajustes de una regulación de calefacción por agua, cada uno con su razón", "Einstellungen einer Heizungsregelung, jede mit ihrem Grund"},
}

// survey is what the survey asks, beyond the names of its fields.
var survey = map[string]entry{}

// answers are the messages about results, mistakes and saving.
var answers = map[string]entry{}
