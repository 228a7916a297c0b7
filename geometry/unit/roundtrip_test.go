package unit

import (
	"errors"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
	"underfall/geometry/message"
)

func kindsOfNumber() []Kind {
	return []Kind{Length, Along, Slope, Flow, Angle, Ratio, Count, Time, Speed}
}

func systems() []System { return []System{Metric, Imperial} }

// anyValue draws a value of a kind that makes sense: evenly, near nought,
// or with few decimals.
func anyValue(t *rapid.T, kind Kind) float64 {
	most := greatest(kind)
	switch rapid.SampledFrom([]string{"even", "small", "short"}).Draw(t, "kind of value") {
	case "small":
		return rapid.Float64Range(-most/1000, most/1000).Draw(t, "value")
	case "short":
		return math.Round(rapid.Float64Range(-most, most).Draw(t, "value")*1000) / 1000
	}
	return rapid.Float64Range(-most, most).Draw(t, "value")
}

// What is shown, for editing or not, reads back in one way as what is shown.
func TestShownReadsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := rapid.SampledFrom(systems()).Draw(t, "system")
		kind := rapid.SampledFrom(kindsOfNumber()).Draw(t, "kind")
		v := anyValue(t, kind)
		for name, write := range map[string]func(float64, Kind, System) string{"Editable": Editable, "Format": Format} {
			text := write(v, kind, s)
			got, err := ParseWithin(text, kind, s, math.Min(v, 0), math.Max(v, 0))
			if err == nil {
				got, err = Parse(text, kind, s)
			}
			if err != nil || write(got, kind, s) != text {
				t.Fatalf("%s of %v is %q, reads back as %v (%q), %v", name, v, text, got, write(got, kind, s), err)
			}
		}
	})
}

// Lists written for editing read back number by number, whatever is in them.
func TestShownListsReadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := rapid.SampledFrom(systems()).Draw(t, "system")
		kind := rapid.SampledFrom(kindsOfNumber()).Draw(t, "kind")
		var texts []string
		for range rapid.IntRange(0, 6).Draw(t, "count") {
			texts = append(texts, Editable(anyValue(t, kind), kind, s))
		}
		for _, between := range []string{", ", "; ", ";", "\n", "\t"} {
			got, err := ParseList(strings.Join(texts, between), kind, s)
			if err != nil || len(got) != len(texts) {
				t.Fatalf("%q with %q between reads as %v, %v", texts, between, got, err)
			}
			for i := range got {
				if Editable(got[i], kind, s) != texts[i] {
					t.Fatalf("%q reads back as %v: number %d shows as %s", texts, got, i+1, Editable(got[i], kind, s))
				}
			}
		}
	})
}

// sound fails when what came of reading text makes no sense.
func sound(t *testing.T, text string, kind Kind, s System, v float64, err error) {
	t.Helper()
	var a *Ambiguous
	switch {
	case err == nil:
		if !(math.Abs(v) <= greatest(kind)) {
			t.Fatalf("Parse(%q, %s, %s) = %v without an error", text, kind, s, v)
		}
		shown := Editable(v, kind, s)
		if again, err := Parse(shown, kind, s); err != nil || Editable(again, kind, s) != shown {
			t.Fatalf("Parse(%q, %s, %s) = %v, shown as %q, which reads as %v, %v", text, kind, s, v, shown, again, err)
		}
	case errors.As(err, &a):
		if len(a.Readings) < 2 {
			t.Fatalf("Parse(%q, %s, %s) asks about %v", text, kind, s, a.Readings)
		}
	case message.OfError(err).ID == "own":
		t.Fatalf("Parse(%q, %s, %s) is refused without a message: %v", text, kind, s, err)
	}
}

func FuzzParse(f *testing.F) {
	for _, s := range []string{"1", "1/2", `3' 2"`, "1:40", "-", "1e9", "½", "1/", "3' ", "=12+", `11/16"`, "1,200", "2 m 5", "=3' 2\" + (4 1/2\")/2", `=5'-3"`, "1:40 (25 mm/m)",
		"25 mm per m", "1 in 40", "1'200", "12.", ",5", "= 2x3", "0.2 l/s", "12 litres per minute", "3°", "50 %", "7-10 1/2", "4 11", "1 200", "=1400-13-70", `2' 4.0625"`, "2 ft 4 1/2 in", "2-4"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		for _, s := range systems() {
			for _, kind := range kindsOfNumber() {
				v, err := Parse(text, kind, s)
				sound(t, text, kind, s, v, err)
				var a *Ambiguous
				if !errors.As(err, &a) {
					continue
				}
				for _, r := range a.Readings {
					v, err := Parse(r.Text, kind, s)
					if err != nil || math.Abs(v-r.Value) > 1e-8*math.Max(1, math.Abs(r.Value)) {
						t.Fatalf("the reading %q (%v) of %q as %s, %s reads as %v, %v", r.Text, r.Value, text, kind, s, v, err)
					}
				}
			}
		}
	})
}

func FuzzParseList(f *testing.F) {
	for _, s := range []string{"", "300, 400, 2.5, 1", "0,2400", "12,5; 30", "12,5, 30,5", "1,200;3", "1,2,3,4,5,6,7,8", ",", "1\t2\n3", `3' 2", 4'`, "=1+2, 3", "1/2,3/4"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		for _, s := range systems() {
			for _, kind := range []Kind{Length, Along, Slope, Flow} {
				vs, err := ParseList(text, kind, s)
				var a *Ambiguous
				if err == nil {
					for _, v := range vs {
						sound(t, text, kind, s, v, nil)
					}
				} else if errors.As(err, &a) {
					for _, r := range a.Readings {
						if _, err := ParseList(r.Text, kind, s); err != nil {
							t.Fatalf("the reading %q of %q reads as: %v", r.Text, text, err)
						}
					}
				}
				columns := []Column{{Length, 0, 500}, {Flow, 0, 20}}
				if vs, err := ParseColumns(text, columns, 1, s); err == nil && len(vs) > len(columns) {
					t.Fatalf("ParseColumns(%q) = %v", text, vs)
				}
			}
		}
	})
}
