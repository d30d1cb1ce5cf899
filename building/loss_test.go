package building

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"curvewright/refuse"
	"curvewright/units"
	"pgregory.net/rapid"
)

func drawLoss(t *rapid.T, name string) Loss {
	return Loss{
		Outdoor: units.LossCoefficient(rapid.Float64Range(0, 500).Draw(t, name+" outdoor")),
		Fixed:   units.LossCoefficient(rapid.Float64Range(0, 200).Draw(t, name+" fixed")),
		FixedAt: units.Celsius(rapid.Float64Range(-5, 30).Draw(t, name+" at")),
	}
}

func TestPlusIsCommutativeAndLosesWhatBothLose(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := drawLoss(t, "a"), drawLoss(t, "b")
		if a.Plus(b) != b.Plus(a) {
			t.Fatalf("%v and %v add differently either way", a, b)
		}
		room, outdoor := units.Celsius(21), units.Celsius(rapid.Float64Range(-40, 30).Draw(t, "outdoor"))
		apart := float64(a.At(room, outdoor) + b.At(room, outdoor))
		if got := float64(a.Plus(b).At(room, outdoor)); math.Abs(got-apart) > 1e-6 {
			t.Fatalf("together %v, apart %v", got, apart)
		}
		f := units.Fraction(rapid.Float64Range(0, 1).Draw(t, "share"))
		whole := float64(a.Scale(f).Plus(a.Scale(1-f)).At(room, outdoor) - a.At(room, outdoor))
		if math.Abs(whole) > 1e-6 {
			t.Fatalf("shares leave %v W", whole)
		}
	})
}

func TestPlusOfNothingFixedIsNoNaN(t *testing.T) {
	sum := Loss{Outdoor: 100}.Plus(Loss{Outdoor: 50})
	if sum != (Loss{Outdoor: 150}) {
		t.Errorf("sum %v", sum)
	}
	if got := (Loss{Outdoor: 100}).Plus(Toward(20, units.Celsius(12))); got.FixedAt != units.Celsius(12) {
		t.Errorf("fixed at %v", got.FixedAt)
	}
}

func TestDesignLoadComesBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		load := units.Power(rapid.Float64Range(100, 1e5).Draw(t, "load"))
		outdoor := units.Celsius(rapid.Float64Range(-45, 10).Draw(t, "outdoor"))
		l, err := FromDesign(load, units.Celsius(20), outdoor)
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(float64(l.At(units.Celsius(20), outdoor)/load)-1) > 1e-12 {
			t.Fatalf("%v comes back as %v", load, l.At(units.Celsius(20), outdoor))
		}
	})
}

func TestBalanceAndFloatingRoomBalance(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := drawLoss(t, "l")
		l.Outdoor += 20
		gains := units.Power(rapid.Float64Range(0, 2000).Draw(t, "gains"))
		balance := l.BalanceOutdoor(units.Celsius(21), gains)
		if got := l.At(units.Celsius(21), balance); math.Abs(float64(got-gains)) > 1e-6 {
			t.Fatalf("loss %v at balance, gains %v", got, gains)
		}
		room, err := l.RoomWith(gains, units.Celsius(-5))
		if err != nil {
			t.Fatal(err)
		}
		if got := l.At(room, units.Celsius(-5)); math.Abs(float64(got-gains)) > 1e-6 {
			t.Fatalf("loss %v in a floating room, gains %v", got, gains)
		}
	})
	if got := Toward(20, units.Celsius(10)).BalanceOutdoor(units.Celsius(20), 50); got != units.Celsius(20) {
		t.Errorf("balance of a loss that does not feel the outdoors: %v", got)
	}
}

func TestRoomsBeside(t *testing.T) {
	l := ok[Loss](t)(UnheatedLoss(20, 0.5))
	near(t, "half", float64(l.Outdoor), 10, 0)
	b := ok[units.Fraction](t)(ReductionFactorFromLosses(30, 10))
	near(t, "b", float64(b), 0.25, 1e-12)
	b = ok[units.Fraction](t)(ReductionFactorFromTemperatures(units.Celsius(20), units.Celsius(5), units.Celsius(-10)))
	near(t, "b from temperatures", float64(b), 0.5, 1e-12)
	near(t, "warmer neighbour", float64(Toward(10, units.Celsius(24)).At(units.Celsius(20), 0)), -40, 1e-9)
	for _, p := range []UnheatedPlace{AtticVentilated, AtticPlain, AtticInsulated, CellarClosed, CellarOpen, CrawlSpace,
		BesideOneOuterWall, BesideTwoOuterWalls, BesideOuterDoor, BesideThreeOuter} {
		if b := ok[units.Fraction](t)(p.ReductionFactor()); b <= 0 || b > 1 {
			t.Errorf("%s: b %v", p, b)
		}
	}
	if _, err := UnheatedPlace("loft").ReductionFactor(); err == nil {
		t.Error("an unknown space is accepted")
	}
	if _, err := ReductionFactorFromTemperatures(units.Celsius(20), units.Celsius(25), units.Celsius(0)); err == nil {
		t.Error("a cellar warmer than the room is accepted as unheated")
	}
	if _, err := ReductionFactorFromLosses(0, 0); err == nil {
		t.Error("no losses at all are accepted")
	}
}

func TestWorkedRoom(t *testing.T) { // EN 12831:2003, worked by hand
	room, design := units.Celsius(20), units.Celsius(-12)
	add := ok[Loss](t)
	transmission := add(OutsideLoss(19.5, 0.28, BridgesNew)).
		Plus(add(OutsideLoss(3, 1.3, BridgesNew))).
		Plus(add(UnheatedLoss(20*0.18, 0.9))).
		Plus(add(GroundLoss(20, 0.25, units.Celsius(9), false)))
	air := add(AirLoss(50, units.PerHour(0.5), 0))
	near(t, "transmission", float64(transmission.At(room, design)), 519.0, 0.1)
	near(t, "ventilation", float64(air.At(room, design)), 272.0, 0.1)
	near(t, "room", float64(transmission.Plus(air).At(room, design)), 791.0, 0.1)
}

func TestRefusalsAreSentences(t *testing.T) {
	_, err := FromDesign(9000, units.Celsius(20), units.Celsius(25))
	var r *refuse.Error
	if !errors.As(err, &r) {
		t.Fatalf("error %v", err)
	}
	if r.What != "room above design outdoor temperature" || !strings.HasPrefix(r.Given, "−5") || !strings.HasPrefix(r.Accept, "1") {
		t.Errorf("says %q", err)
	}
	for _, load := range []units.Power{0, -5, units.Power(math.NaN()), units.Power(math.Inf(1))} {
		if _, err := FromDesign(load, units.Celsius(20), units.Celsius(-10)); err == nil {
			t.Errorf("a load of %v is accepted", float64(load))
		}
	}
	if _, err := OutsideLoss(-1, 0.3, 0); err == nil {
		t.Error("a negative area is accepted")
	}
	if _, err := (Loss{}).RoomWith(100, units.Celsius(0)); err == nil {
		t.Error("a house without loss is accepted")
	}
}

func Example() {
	house, err := FromDesign(units.BtuPerHour(38000), units.Fahrenheit(70), units.Fahrenheit(5))
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println("loss", house.Coefficient().Text(units.US))
	fmt.Println("at 35 °F", house.At(units.Fahrenheit(70), units.Fahrenheit(35)).Text(units.US))
	gains, _ := Gains(AverageGains, units.SquareFeet(1850))
	fmt.Println("heat from", house.BalanceOutdoor(units.Fahrenheit(70), gains).Text(units.US), "down")
	// Output:
	// loss 585 Btu/h·°F
	// at 35 °F 20,500 Btu/h
	// heat from 65 °F down
}
