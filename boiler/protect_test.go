package boiler

import (
	"strings"
	"testing"

	"curvewright/units"
	"pgregory.net/rapid"
)

func contains(s, words string) bool {
	return strings.Contains(strings.ReplaceAll(s, "\u00a0", " "), words)
}

func TestLeastReturnIsThatOfTheTrade(t *testing.T) { // about 130 to 140 °F with natural gas, common practice
	g := ok[FlueGas](t)(fuel(t, "natural-gas").Burn(0.25, CellarAir()))
	least := ok[units.Temperature](t)(g.LeastReturn(UsualMargin))
	near(t, "°F", least.Fahrenheit(), 137, 3)
	_, err := g.LeastReturn(-1)
	refused(t, "negative margin", err, "margin")
	_, err = FlueGas{}.LeastReturn(3)
	refused(t, "no gas", err, "burn one first")
}

func TestReturnVerdicts(t *testing.T) {
	least := units.Fahrenheit(135)
	for _, c := range []struct {
		back       units.Temperature
		since      units.Time
		good       bool
		says, does string
	}{
		{units.Fahrenheit(140), 3600, true, "keeps the boiler dry", ""},
		{units.Fahrenheit(110), 120, false, "started only 2 min ago", "read again"},
		{units.Fahrenheit(110), 1800, false, "condenses in a boiler that is not made for it", "return protection"},
	} {
		v := ok[Verdict](t)(ProtectsReturn(c.back, least, c.since))
		if v.Good != c.good || !contains(v.Says, c.says) || !contains(v.Remedy, c.does) {
			t.Errorf("%+v", v)
		}
	}
	_, err := ProtectsReturn(0, least, 0)
	refused(t, "return of 0 K", err, "return temperature")
}

func TestCondensingVerdicts(t *testing.T) {
	g := ok[FlueGas](t)(fuel(t, "natural-gas").Burn(0.25, CellarAir()))
	for _, c := range []struct {
		back, exit float64
		good       bool
		says       string
	}{
		{35, 40, true, "it condenses"},
		{65, 70, false, "nothing condenses"},
		{40, 70, false, "30 K"},
		{50, 62, false, "next to nothing"},
		{50, 40, false, "cannot be"},
	} {
		v := ok[Verdict](t)(g.CondensesNow(units.Celsius(c.back), units.Celsius(c.exit)))
		if v.Good != c.good || !contains(v.Says, c.says) || v.Good != (v.Remedy == "") {
			t.Errorf("%+v", v)
		}
	}
	_, err := g.CondensesNow(units.Celsius(30), 0)
	refused(t, "gas of 0 K", err, "flue-gas temperature")
}

func TestCondensingShareOfASeason(t *testing.T) {
	g := ok[FlueGas](t)(fuel(t, "methane").Burn(0.2, dryAir(25))) // dew point 55.7 °C
	weather := []Weather{
		{Outdoor: units.Celsius(-10), Time: units.Hours(100), Load: 10e3, Return: units.Celsius(60)},
		{Outdoor: units.Celsius(0), Time: units.Hours(300), Load: 6e3, Return: units.Celsius(45)},
		{Outdoor: units.Celsius(25), Time: units.Hours(500), Load: 0},
	}
	s := ok[CondensingShare](t)(g.CondensingShare(weather, 5))
	near(t, "by time", float64(s.ByTime), 0.75, 1e-12)
	near(t, "by heat", float64(s.ByHeat), 1.8/2.8, 1e-12)
	if s := ok[CondensingShare](t)(g.CondensingShare(weather[2:], 5)); s != (CondensingShare{}) {
		t.Errorf("%+v without a load", s)
	}
	_, err := g.CondensingShare([]Weather{{Outdoor: 273, Time: 1, Load: 1}}, 5)
	refused(t, "no return", err, "return temperature")
}

func TestCondensingShareFallsWithTheReturn(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := drawGas(t)
		var cool, warm []Weather
		for range rapid.IntRange(1, 8).Draw(t, "classes") {
			w := Weather{Outdoor: units.Celsius(0), Time: units.Hours(rapid.Float64Range(1, 500).Draw(t, "hours")),
				Load: units.Power(rapid.Float64Range(100, 2e4).Draw(t, "load")), Return: units.Celsius(rapid.Float64Range(20, 80).Draw(t, "return"))}
			cool = append(cool, w)
			w.Return += 10
			warm = append(warm, w)
		}
		a, errA := g.CondensingShare(cool, 5)
		b, errB := g.CondensingShare(warm, 5)
		if errA != nil || errB != nil || b.ByHeat > a.ByHeat || a.ByHeat > 1+1e-12 || b.ByTime < 0 {
			t.Fatalf("%+v %+v %v %v", a, b, errA, errB)
		}
	})
}

func TestReading(t *testing.T) {
	gas := fuel(t, "natural-gas")
	air := dryAir(20)
	c := ok[Combustion](t)(gas.Read(Reading{Oxygen: 0.05, Monoxide: units.PartsPerMillion(50), Exit: units.Celsius(45), Air: air}))
	near(t, "CO air-free", c.AirFree.PartsPerMillion(), 65.7, 0.05)
	if len(c.Remarks) != 0 || len(c.Cautions) == 0 || !c.Balance.Condensing {
		t.Errorf("%+v", c)
	}
	c = ok[Combustion](t)(gas.Read(Reading{Oxygen: 0.05, CO2: 0.075, Monoxide: units.PartsPerMillion(90), Exit: units.Celsius(45), Air: air}))
	if len(c.Remarks) != 2 || !contains(c.Remarks[0], "do not belong together") || !contains(c.Remarks[1], "service practice") {
		t.Errorf("%q", c.Remarks)
	}
	near(t, "excess by CO2", float64(c.ExcessCO2), float64(ok[units.Fraction](t)(gas.ExcessFromCO2(0.075))), 1e-12)
	c = ok[Combustion](t)(gas.Read(Reading{Oxygen: 0.05, Monoxide: units.PartsPerMillion(900), Exit: units.Celsius(45), Air: air}))
	if len(c.Remarks) != 1 || !contains(c.Remarks[0], "shut the burner off") {
		t.Errorf("%q", c.Remarks)
	}
	for what, r := range map[string]Reading{
		"oxygen": {Oxygen: 0.209, Exit: 320, Air: air}, "flue-gas temperature": {Oxygen: 0.05, Air: air},
		"carbon monoxide": {Oxygen: 0.05, Monoxide: -1, Exit: 320, Air: air}, "carbon dioxide": {Oxygen: 0.05, CO2: 0.2, Exit: 320, Air: air},
		"combustion air": {Oxygen: 0.05, Exit: 320},
	} {
		_, err := gas.Read(r)
		refused(t, what, err, what)
	}
	_, err := AirFree(units.PartsPerMillion(50), 0.19)
	refused(t, "plain air", err, "oxygen")
}

func TestCautionsSpeakInSentences(t *testing.T) {
	for _, c := range []string{CautionGas, CautionCarbonMonoxide, CautionCombustion, CautionAltitude, CautionOutputLimit, CautionCondensate, CautionReturn, CautionClocking, CautionOil} {
		if len(c) < 40 || !strings.HasSuffix(c, ".") {
			t.Errorf("%q", c)
		}
	}
}
