package logs

// What a column means, by the words of its heading in four languages.

import (
	"slices"
	"strings"
	"unicode"
)

// Role is what a column measures in the house.
type Role string

// The roles. A log may hold several rooms; of the others the first is used.
const (
	Leave      Role = "leave out"
	Time       Role = "time"  // date and time, or the date
	TimeOfDay  Role = "clock" // beside a column with the date
	Outdoor    Role = "outdoor"
	Supply     Role = "supply"
	Return     Role = "return"
	Wanted     Role = "supply wanted"
	Boiler     Role = "boiler supply" // where a circuit has its own
	BoilerBack Role = "boiler return"
	Room       Role = "room"
	Tank       Role = "tank"
	WaterFlow  Role = "water flow"
	Heat       Role = "heat" // power to the water
	HeatMeter  Role = "heat meter"
	Fuel       Role = "fuel" // power or volume flow
	FuelMeter  Role = "fuel meter"
	Burner     Role = "burner" // on, or its position
	Pump       Role = "pump"
	Water      Role = "water pressure"
	Sun        Role = "sun"
)

// Roles lists them in the order in which they are offered.
//
// Range: all of them.
// Source: definition.
func Roles() []Role {
	return []Role{Leave, Time, TimeOfDay, Outdoor, Supply, Return, Wanted, Boiler, BoilerBack, Room, Tank, WaterFlow, Heat, HeatMeter, Fuel, FuelMeter, Burner, Pump, Water, Sun}
}

// kinds says what a role can be measured in; the first unit of a kind that is likely
// when the heading names none.
var kinds = map[Role][]Kind{
	Outdoor: {Temperature}, Supply: {Temperature}, Return: {Temperature}, Wanted: {Temperature}, Boiler: {Temperature}, BoilerBack: {Temperature},
	Room: {Temperature}, Tank: {Temperature}, WaterFlow: {Flow}, Heat: {Power}, HeatMeter: {Energy}, Fuel: {Power, Flow}, FuelMeter: {Volume, Energy},
	Burner: {Share}, Pump: {Share}, Water: {Pressure}, Sun: {Irradiance},
}

// fold takes a heading apart into plain small words without accents.
func fold(heading string) []string {
	var out []rune
	last := ' '
	for _, r := range heading {
		switch {
		case unicode.IsUpper(r) && unicode.IsLower(last):
			out = append(out, ' ')
		case unicode.IsDigit(r) != unicode.IsDigit(last) && (unicode.IsLetter(r) || unicode.IsLetter(last)):
			out = append(out, ' ')
		}
		last = r
		if !unicode.IsLetter(r) && !unicode.IsDigit(r) && string(r) != lost {
			r = ' '
		}
		out = append(out, []rune(unaccented(unicode.ToLower(r)))...)
	}
	return strings.Fields(string(out))
}

func unaccented(r rune) string {
	switch r {
	case 'ä', 'á', 'à', 'â', 'ã':
		return "a"
	case 'ö', 'ó', 'ô':
		return "o"
	case 'ü', 'ú', 'ù', 'û':
		return "u"
	case 'é', 'è', 'ê', 'ë':
		return "e"
	case 'í', 'î', 'ï':
		return "i"
	case 'ñ':
		return "n"
	case 'ç':
		return "c"
	case 'ß':
		return "ss"
	}
	return string(r)
}

// meanings are looked through from the top; the first whose words are all there counts.
// A word with a star may go on; words with a bar are alternatives. Words after a minus
// must be absent.
var meanings = []struct {
	role  Role
	words string
	sure  float64
}{
	{Leave, "humid*|feucht*|humidite*|humedad*|rh|co|battery|batterie*|akku|rssi|signal|status|alarm*|error*|fehler*|voc|dew|taupunkt|wind*|rain*|regen*|electri*|strom*|index|record|nr|no|row|zeile|ligne|fila|seq*|id|note*|comment*|remark*|bemerkung*|remarque*|observa* -temp* -co*mbust* -elect*boiler", 0.8},
	{Sun, "solar*|sun|sonne*|irradi*|globalstrahlung|strahlung|soleil|rayonnement|radiacion|ghi|pyran*", 0.85},
	{Wanted, "supply|flow|vorlauf*|vl|depart|impulsion|ida|boiler|water|lwt set*|target|soll*|consigne|consigna|wanted|demand|desired|calculated|berechnet -return -rucklauf", 0.85},
	{Wanted, "vorlaufsoll*|vlsoll|sollvorlauf*|kesselsoll*", 0.9},
	{Leave, "set*|target|soll*|consigne|consigna|raumsoll*|setpoint -pump* -pumpe", 0.6},
	{Tank, "tank|dhw|hot|cylinder|ww|warmwasser*|speicher*|ballon|ecs|acs|acumulador|deposito|boilertemperatur|brauchwasser*|sanitaire -tank*less -pump* -pumpe -meter -outside -on", 0.8},
	{BoilerBack, "boiler|kessel*|chaudiere|caldera|burner ret*|rucklauf*|ruecklauf*|rl|entering|inlet|ewt|in|entree", 0.85},
	{BoilerBack, "kesselrucklauf*|kesselruecklauf*", 0.9},
	{Burner, "burner*|flame*|brenner*|bruleur*|quemador*|firing*|modulation*|modulacion|brennerstufe", 0.9},
	{Burner, "boiler|kessel|chaudiere|caldera on|run*|state|ein|marche|active|rate|power|leistung -kw", 0.7},
	{Boiler, "boiler|kessel*|chaudiere|caldera supply|vorlauf*|vl|out*|leaving|depart|temp*|flow|t|impulsion", 0.8},
	{Boiler, "kesseltemp*|kesselvorlauf*|boilertemp*", 0.85},
	{HeatMeter, "heat*|warme*|waerme*|chaleur|calor meter*|zahler*|zaehler*|compteur|contador -gas* -fuel* -oil* -propane -brennstoff", 0.9},
	{FuelMeter, "gas|fuel|oil|propane|brennstoff|ol|gaz|combustible|fioul|erdgas|gasoil meter*|count*|zahl*|total*|index|compteur|contador|volume|verbrauch|consumption|reading|stand|cum*", 0.9},
	{FuelMeter, "gaszahler*|gaszaehler*|gasverbrauch|gasmeter|olzahler*|gasstand|gaz|therms|ccf", 0.85},
	{Fuel, "gas|fuel|oil|gasleistung flow|rate|power|input|leistung|debit|durchfluss", 0.8},
	{FuelMeter, "gas|fuel|propane|erdgas", 0.6},
	{HeatMeter, "heat*|warme*|waerme*|chaleur|calor|thermal|energy|energie|energia meter*|count*|zahl*|total*|menge*|energy|energie|compteur|contador|kwh|cum*|mwh|delivered", 0.85},
	{HeatMeter, "warmezahler*|waermezaehler*|wmz|warmemenge*|waermemenge*|heatmeter|kwh|mwh", 0.85},
	{HeatMeter, "energy|energie|energia", 0.6},
	{WaterFlow, "flow*|debit|caudal|durchfluss*|volumenstrom*|gpm|lpm|durchflussmenge -temp* -supply -t -set*", 0.75},
	{Supply, "supply|vorlauf*|vl|depart|impulsion|ida|aller|lwt|sup|sply|vorl -boiler* -air -pressure -power", 0.9},
	{Supply, "flow|water temp*|out|t|leaving", 0.7},
	{Return, "return*|rucklauf*|ruecklauf*|rl|retour|retorno|ret|ewt|rtn|ruckl -air", 0.9},
	{Outdoor, "outdoor*|outside*|exterior*|external|exterieur*|aussen*|auss|oat|ambient|weather|ext|at|ta|odt|ausentemp*|odu|buiten* -humid* -pump", 0.9},
	{Outdoor, "dry temp*|bulb", 0.7},
	{Pump, "pump*|pompe*|bomba*|circulat*|umwalz*|circ", 0.8},
	{Heat, "heat*|thermal|warme*|waerme*|leistung*|power|puissance|potencia|output|kw|btuh -pump*", 0.75},
	{Water, "pressure|druck*|pression|presion|psi|bar|anlagendruck|wasserdruck", 0.8},
	{Room, "room*|indoor*|inside|raum*|zimmer*|innen*|interieur*|interior*|piece|ambiante|ambiance|zone*|thermostat*|habitacion|salle|iat|it|rt", 0.9},
	{Room, "living*|bed*|kitchen*|bath*|hall*|office|study|parlo*|dining*|basement|attic|nursery|den|landing|lounge|wohn*|schlaf*|kuche*|bad*|flur|diele|kinder*|buro|keller|essen|salon|sejour|chambre*|cuisine*|couloir|bureau|sdb|sala|cocina*|dormitorio*|bano|pasillo|comedor|upstairs|downstairs|og|eg|dg|floor|first|second", 0.75},
	{Time, "time*|date*|datum*|zeit*|stamp|timestamp|heure*|horodat*|fecha*|hora*|uhrzeit|tag|jour|dia|datetime", 0.9},
}

// meaning tells what a heading says.
func meaning(heading string) (Role, float64, string) {
	words := fold(heading)
	for _, m := range meanings {
		if hit, ok := matches(words, m.words); ok {
			return m.role, m.sure, hit
		}
	}
	return "", 0, ""
}

// matches tells whether the words fit a pattern, and which word decided.
func matches(words []string, pattern string) (string, bool) {
	first := ""
	used := []int{}
	for _, part := range strings.Fields(pattern) {
		if bare, absent := strings.CutPrefix(part, "-"); absent {
			if slices.ContainsFunc(words, func(w string) bool { return like(w, bare) }) {
				return "", false
			}
			continue
		}
		found := -1
		for _, alternative := range strings.Split(part, "|") {
			for i, w := range words {
				if found < 0 && !slices.Contains(used, i) && like(w, alternative) {
					found = i
				}
			}
		}
		if found < 0 {
			return "", false
		}
		used = append(used, found)
		if first == "" {
			first = words[found]
		}
	}
	return first, first != ""
}

func like(word, pattern string) bool {
	if strings.Contains(word, lost) && len(word) > lostNeeds {
		return likeLost(word, pattern)
	}
	if stem, open := strings.CutSuffix(pattern, "*"); open {
		return strings.HasPrefix(word, stem)
	}
	return word == pattern
}

const lostNeeds = 6 // bytes, three of them the lost sign: shorter words would be like anything

// likeLost lets a sign that was lost stand for one letter, or for the two that an ß is.
func likeLost(word, pattern string) bool {
	before, after, _ := strings.Cut(word, lost)
	stem, open := strings.CutSuffix(pattern, "*")
	if rest, ok := strings.CutPrefix(stem, before); ok {
		for n := 1; n <= 2 && n <= len(rest); n++ {
			tail := rest[n:]
			if open {
				tail += "*"
			}
			if like(after, tail) {
				return true
			}
		}
	}
	return open && strings.HasPrefix(before, stem)
}
