package unit_test

import (
	"testing"

	"underfall/geometry/message"
	"underfall/geometry/unit"
)

// What is typed in a unit of another kind is refused by every kind of number, and called what it is where it is one that
// Underfall knows.
func TestWrongUnits(t *testing.T) {
	for typed, c := range map[string]struct {
		says message.ID
		does []unit.Kind
	}{
		"12 kg":     {"reading.unknown-unit", nil},
		"2.5 bar":   {"reading.unknown-unit", nil},
		"5 l":       {"reading.unknown-unit", nil},
		"3.2 l/s":   {"reading.is-flow", []unit.Kind{unit.Flow}},
		"12 gpm":    {"reading.is-flow", []unit.Kind{unit.Flow}},
		"1:40":      {"reading.is-fall", []unit.Kind{unit.Slope}},
		"1/4 in/ft": {"reading.is-fall", []unit.Kind{unit.Slope}},
		"45°":       {"reading.is-angle", []unit.Kind{unit.Angle, unit.Slope}},
		"2 s":       {"reading.is-time", []unit.Kind{unit.Time}},
		"3 m/s":     {"reading.is-speed", []unit.Kind{unit.Speed}},
		"120 mm":    {"reading.is-length", []unit.Kind{unit.Length, unit.Along}},
		`5' 6"`:     {"reading.is-length", []unit.Kind{unit.Length, unit.Along}},
	} {
		for _, kind := range []unit.Kind{unit.Length, unit.Along, unit.Slope, unit.Flow, unit.Angle, unit.Ratio, unit.Count,
			unit.Time, unit.Speed} {
			for _, s := range []unit.System{unit.Metric, unit.Imperial} {
				takes := false
				for _, k := range c.does {
					takes = takes || k == kind
				}
				v, err := unit.Parse(typed, kind, s)
				if takes {
					if err != nil {
						t.Errorf("%q as %s in %s: %v", typed, kind, s, err)
					}
					continue
				}
				said, is := err.(interface{ Message() message.Message })
				if !is {
					t.Errorf("%q as %s in %s is taken as %v", typed, kind, s, v)
					continue
				}
				want := c.says
				if want == "reading.is-length" && kind == unit.Slope {
					want = "reading.length-no-fall"
				}
				if wrong, ok := said.Message().Args[0].Value.(message.Said); !ok || message.Message(wrong).ID != want {
					t.Errorf("%q as %s in %s says %v, want %s", typed, kind, s, said.Message(), want)
				}
			}
		}
	}
}
