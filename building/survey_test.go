package building

import (
	"math"
	"strings"
	"testing"

	"curvewright/units"
	"pgregory.net/rapid"
)

func drawSurvey(t *rapid.T) Survey {
	return Survey{
		FloorArea:   units.Area(rapid.Float64Range(60, 500).Draw(t, "area")),
		Storeys:     units.Number(rapid.SampledFrom([]float64{0, 1, 1.5, 2, 3}).Draw(t, "storeys")),
		SharedSides: rapid.IntRange(0, 2).Draw(t, "shared"),
		Era:         rapid.SampledFrom([]Era{"", Before1946, From1946, From1980, From2000, From2012}).Draw(t, "era"),
		Insulation:  rapid.SampledFrom([]Insulation{"", AsBuilt, Improved, WellInsulated}).Draw(t, "insulation"),
		Glazing:     rapid.SampledFrom([]Glazing{"", SingleGlazing, DoubleGlazing, DoubleLowE, TripleGlazing}).Draw(t, "glazing"),
		Tightness:   rapid.SampledFrom([]Tightness{"", Leaky, Average, Tight}).Draw(t, "tightness"),
		Under:       rapid.SampledFrom([]Under{"", UnheatedBasement, HeatedBasement, OnSlab, OverCrawlSpace}).Draw(t, "under"),
	}
}

func coldLoss(t *rapid.T, s Survey) (Estimate, float64) {
	e, err := s.Estimate()
	if err != nil {
		t.Fatal(err)
	}
	return e, float64(e.Loss.At(units.Celsius(20), units.Celsius(-15)))
}

func TestABiggerHouseLosesMore(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSurvey(t)
		_, small := coldLoss(t, s)
		s.FloorArea *= units.Area(rapid.Float64Range(1.01, 3).Draw(t, "times"))
		if _, big := coldLoss(t, s); big <= small {
			t.Fatalf("a bigger house loses %v W, the smaller %v W", big, small)
		}
	})
}

func TestBetterHousesLoseLess(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSurvey(t)
		s.Insulation, s.Glazing, s.Tightness = AsBuilt, SingleGlazing, Leaky
		_, before := coldLoss(t, s)
		for _, improve := range []func(){
			func() { s.Insulation = WellInsulated },
			func() { s.Glazing = TripleGlazing },
			func() { s.Tightness = Tight },
			func() { s.SharedSides++ },
		} {
			improve()
			_, after := coldLoss(t, s)
			if after >= before {
				t.Fatalf("better, yet %v W after %v W", after, before)
			}
			before = after
		}
	})
}

func TestPartsAddUpAndAreSaid(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSurvey(t)
		e, _ := coldLoss(t, s)
		sum := 0.0
		for _, p := range e.Elements {
			sum += float64(p.Coefficient)
			if p.Name != "air" {
				if got := float64(p.Area) * float64(p.Transmittance) * float64(p.Factor); math.Abs(got-float64(p.Coefficient)) > 1e-9 {
					t.Fatalf("%s: A·U·factor %v, coefficient %v", p.Name, got, p.Coefficient)
				}
			}
		}
		if math.Abs(sum-float64(e.Loss.Coefficient())) > 1e-6 {
			t.Fatalf("parts %v, whole %v", sum, e.Loss.Coefficient())
		}
		if s.Era == "" && !strings.Contains(strings.Join(e.Assumed, "\n"), "year of building not given") {
			t.Fatal("the era assumed is not said")
		}
		if e.Error < 0.2 || e.Error > 0.45 {
			t.Fatalf("relative deviation %v", e.Error)
		}
	})
}

func TestAnswersNarrowTheEstimate(t *testing.T) {
	s := Survey{FloorArea: 172}
	before := ok[Estimate](t)(s.Estimate()).Error
	for name, answer := range map[string]func(*Survey){
		"storeys": func(s *Survey) { s.Storeys = 2 }, "era": func(s *Survey) { s.Era = From1980 },
		"insulation": func(s *Survey) { s.Insulation = AsBuilt }, "glazing": func(s *Survey) { s.Glazing = DoubleLowE },
		"tightness": func(s *Survey) { s.Tightness = Average }, "blower door": func(s *Survey) { s.N50 = units.PerHour(7) },
		"under": func(s *Survey) { s.Under = OverCrawlSpace }, "ceiling": func(s *Survey) { s.CeilingHeight = 2.5 },
	} {
		answered := s
		answer(&answered)
		if after := ok[Estimate](t)(answered.Estimate()).Error; after >= before {
			t.Errorf("knowing the %s does not narrow %v", name, before)
		}
	}
}

func TestEstimateAgainstWhatIsPublished(t *testing.T) {
	// Median of British homes 198 W/K, Buildings and Cities, doi 10.5334/bc.670; a
	// usual home there: 85 m², two storeys, one side shared, cavity filled, slab.
	british := Survey{FloorArea: 85, Storeys: 2, SharedSides: 1, Era: From1946, Insulation: Improved, Glazing: DoubleGlazing,
		Tightness: Average, Under: OnSlab, CeilingHeight: 2.4, AnnualMean: units.Celsius(10)}
	e := ok[Estimate](t)(british.Estimate())
	near(t, "British home W/K", float64(e.Loss.Coefficient()), 198, 198*0.25)

	// The Northeastern rule of 25 to 35 Btu/h·ft² is high for an improved house.
	american := Survey{FloorArea: units.SquareFeet(1850), Storeys: 2, Era: From1946, Insulation: Improved, Glazing: DoubleGlazing,
		Tightness: Average, Under: UnheatedBasement}
	e = ok[Estimate](t)(american.Estimate())
	if per := e.Loss.At(units.Fahrenheit(70), units.Fahrenheit(5)).BtuPerHour() / 1850; per < 10 || per > 25 {
		t.Errorf("an improved house comes to %.1f Btu/h·ft²", per)
	}
}

func TestBadSurveysAreRefusedInWords(t *testing.T) {
	for words, s := range map[string]Survey{
		"heated floor area":    {},
		"era":                  {FloorArea: 150, Era: "1066"},
		"state of insulation":  {FloorArea: 150, Insulation: "good"},
		"glazing":              {FloorArea: 150, Glazing: "quadruple"},
		"tightness":            {FloorArea: 150, Tightness: "windy"},
		"lowest floor":         {FloorArea: 150, Under: "sea"},
		"storeys":              {FloorArea: 150, Storeys: 9},
		"sides shared":         {FloorArea: 150, SharedSides: 4},
		"ceiling height":       {FloorArea: 150, CeilingHeight: 20},
		"altitude":             {FloorArea: 150, Altitude: 9000},
		"air change at 50 Pa":  {FloorArea: 150, N50: units.PerHour(100)},
		"annual mean outdoor":  {FloorArea: 150, AnnualMean: 20},
		"heated floor area: n": {FloorArea: units.Area(math.NaN())},
	} {
		if _, err := s.Estimate(); err == nil || !strings.Contains(err.Error(), words) {
			t.Errorf("error %v does not say %q", err, words)
		}
	}
}

func TestGains(t *testing.T) {
	near(t, "W", float64(ok[units.Power](t)(Gains(AverageGains, 150))), 750, 0)
	if _, err := Gains(-1, 150); err == nil {
		t.Error("negative gains are accepted")
	}
}
