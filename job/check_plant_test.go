package job

import (
	"errors"
	"fmt"
	"strings"
	"testing"
)

const plantOfAHouse = small + `boiler:
  fuel: natural gas
  output: 85,000 Btu/h
  gas: {methane: 93 %, ethane: 4 %, propane: 1 %, nitrogen: 1.2 %, carbon_dioxide: 0.8 %}
  rated:
    - {return: 30 °C, rate: 30 %, efficiency: 108.5 %, basis: net}
    - {return: 60 °C, efficiency: 88 %}
separator: {kind: four-pipe buffer, boiler_flow: 8 gpm, volume: 30 gal}
`

func TestBoilerAndBufferAreChecked(t *testing.T) {
	if _, err := Read([]byte(plantOfAHouse)); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct{ name, old, new, path, words string }{
		{"net entered as gross", ", basis: net", "", "boiler.rated[0].efficiency", "100% with basis: gross (higher heating value), to 111% with basis: net (lower heating value)|add basis: net"},
		{"gross said, net meant", "basis: net", "basis: gross", "boiler.rated[0].efficiency", "add basis: net"},
		{"more than the fuel holds", "108.5 %", "113 %", "boiler.rated[0].efficiency", "even against its net heat|111%"},
		{"oil has less hydrogen", "fuel: natural gas\n  output: 85,000 Btu/h\n  gas: {methane: 93 %, ethane: 4 %, propane: 1 %, nitrogen: 1.2 %, carbon_dioxide: 0.8 %}", "fuel: heating oil", "boiler.rated[0].efficiency", "even against its net heat|107%"},
		{"half a boiler", "efficiency: 88 %", "efficiency: 8.8 %", "boiler.rated[1].efficiency", "not the efficiency"},
		{"a gas with a gap", "methane: 93 %", "methane: 80 %", "boiler.gas", "add up to|100%"},
		{"a gas that does not burn", "methane: 93 %, ethane: 4 %, propane: 1 %, nitrogen: 1.2 %", "methane: 20 %, nitrogen: 79.2 %", "boiler.gas", "does not burn"},
		{"a gas for oil", "fuel: natural gas", "fuel: heating oil", "boiler.gas", "only with fuel: natural gas"},
		{"a river through the boiler", "boiler_flow: 8 gpm", "boiler_flow: 500 gpm", "separator.boiler_flow", "not the flow of a house's boiler pump|79"},
		{"a volume without a buffer", "kind: four-pipe buffer", "kind: low-loss header", "separator.volume", "only with kind: two-pipe buffer"},
		{"a lake for a buffer", "volume: 30 gal", "volume: 30000 gal", "separator.volume", "not the water of a house's buffer"},
		{"less water than the buffer", "volume: 30 gal}", "volume: 30 gal}\nsystem: {content: 25 gal}", "system.content", "more than 30 gal"},
		{"burner water without the buffer", "fuel: natural gas", "fuel: natural gas\n  water: 10 gal", "boiler.water", "at least 30 gal"},
	} {
		t.Run(c.name, func(t *testing.T) {
			if !strings.Contains(plantOfAHouse, c.old) {
				t.Fatalf("no %q in the document", c.old)
			}
			_, err := Read([]byte(strings.Replace(plantOfAHouse, c.old, c.new, 1)))
			var faults *Faults
			if !errors.As(err, &faults) || faults.List[0].Path != c.path {
				t.Fatalf("want a fault at %s: %v", c.path, err)
			}
			for _, w := range strings.Split(c.words, "|") {
				if !strings.Contains(strings.ReplaceAll(err.Error(), "\u00a0", " "), w) {
					t.Errorf("says %q, want %q in it", err, w)
				}
			}
		})
	}
	river := strings.Replace(piped, "flow: 4 gpm", "flow: 500 gpm", 1)
	if _, err := Read([]byte(river)); err == nil || !strings.Contains(fmt.Sprint(err), "more water than any circuit") {
		t.Errorf("a river in a circuit: %v", err)
	}
}
