package app

import (
	"fmt"
	"strings"
	"testing"

	"underfall/geometry/job"
	"underfall/geometry/unit"
)

// Lists are read as people type them, with either decimal mark.
func TestListsAsTyped(t *testing.T) {
	w, _ := openWindow(t, Options{})
	for _, c := range []struct {
		label, text string
		got         func(job.Job) any
		want        string
	}{
		{"Laser", "300,5; 400; 2,5; 1\n900,400,3", func(j job.Job) any { return j.SpotLevels }, "[{[300.5 400] 2.5 1} {[900 400] 3 0}]"},
		{"Laser", "300; 400; 1,200", func(j job.Job) any { return j.SpotLevels }, "[{[300 400] 1.2 0}]"},
		{"Laser", "1 200, 2 m 30, =3-0,5", func(j job.Job) any { return j.SpotLevels }, "[{[1200 2300] 2.5 0}]"},
		{"Laser", "", func(j job.Job) any { return len(j.SpotLevels) }, "0"},
		{"Trap data", "12,5; 24 l/min\n15,30", func(j job.Job) any { return j.Drain.CapacityCurve }, "[{12.5 0.4} {15 0.5}]"},
		{"Flows", "12,5; 9", func(j job.Job) any { return fmt.Sprintf("%.3f", j.Water.TotalLPS()) }, "0.358"},
		{"Joist supports", "0,2400", func(j job.Job) any { return j.Floor.Joists.SupportsMM }, "[0 2400]"},
		{"In-line", "reducer at 1 200 to 43,5/39 (reversed)", func(j job.Job) any {
			var out []float64
			for _, f := range j.Waste.Fittings {
				out = append(out, f.AtMM, f.OutsideDiameterMM, f.BoreMM)
			}
			return out
		}, "[1200 43.5 39]"},
	} {
		l := listField(t, w, c.label)
		enter(w, l.entry, c.text)
		if got := fmt.Sprint(c.got(w.desk.Job())); l.message.Visible() || got != c.want {
			t.Errorf("%s: %q gives %s (%s), want %s", c.label, c.text, got, l.message.Text, c.want)
		}
	}
}

// What cannot be read, or in two ways, is refused with its line; the job stays.
func TestListsSayWhatIsWrong(t *testing.T) {
	w, _ := openWindow(t, Options{})
	for _, c := range []struct{ label, text, says string }{
		{"Laser", "300, 400, 2\n300, 400", "line 2: needs 3 to 4 numbers, has 2"},
		{"Laser", "300, 400, 600", "line 1: number 3, “600”: this is 600 mm, but must be between -500 mm and 500 mm"},
		{"Laser", "300, 400, 2, 101", "line 1: number 4, “101”"},
		{"Laser", "1,200; 400; 3", "line 1: “1,200; 400; 3” can be “1200 mm; 400 mm; 3 mm” or “1.2 mm; 400 mm; 3 mm”"},
		{"Laser", "300, , 400, 2", "line 1: a number is missing before “400”"},
		{"Trap data", "10, 24\n501, 30", "line 2: number 1, “501”"},
		{"Flows", "12,9", "“12,9” can be “12 l/min; 9 l/min” or “12.9 l/min”"},
		{"Joist supports", "2400", "needs 2 to 200 numbers, has 1"},
		{"In-line", "reducer at x to 43/39", "line 1: “at x”: “x” is not a number"},
		{"In-line", "extender at 100 fall 1:", "line 1: “fall 1:”: a number must follow the “:”"},
		{"In-line", "reducer at 100 to 43", "line 1: say the pipe after it as outside/bore"},
		{"In-line", "reducer at 100 to 43/300", "line 1: “300”: this is 300 mm, but must be between 10 mm and 240 mm"},
	} {
		l := listField(t, w, c.label)
		enter(w, l.entry, c.text)
		if !l.message.Visible() || !strings.Contains(l.message.Text, c.says) {
			t.Errorf("%s: %q says %q, want %q", c.label, c.text, l.message.Text, c.says)
		}
	}
}

// The ranges of the lists' columns are those of the job, which takes what
// stands at their ends.
func TestListsReachTheLimits(t *testing.T) {
	w, _ := openWindow(t, Options{})
	for label, text := range map[string]string{
		"Laser":     "300, 400, 500, 100\n300, 500, -500, 0",
		"Trap data": "500, 1200",
		"Flows":     "0, 1200",
	} {
		l := listField(t, w, label)
		enter(w, l.entry, text)
		if l.message.Visible() {
			t.Errorf("%s: %q is refused: %s", label, text, l.message.Text)
		}
	}
}

// Fittings and lists read back in inches as well, where fractions have strokes.
func TestListsReadBackInInches(t *testing.T) {
	for _, s := range []unit.System{unit.Metric, unit.Imperial} {
		for _, f := range []job.Fitting{
			{Kind: job.FittingReducer, AtMM: 250, LengthMM: 60, NominalMM: 40, OutsideDiameterMM: 43, BoreMM: 39, Reversed: true},
			{Kind: job.FittingReducer, AtMM: 1200.25, LengthMM: 60, NominalMM: 50, OutsideDiameterMM: 50.8, BoreMM: 38.1},
			{Kind: job.FittingExtender, AtMM: 100, LengthMM: 140, Slope: 0.05},
		} {
			text := writeFitting(f, s)
			got, err := readFitting(text, s)
			if err != nil || writeFitting(got, s) != text {
				t.Errorf("%s: %q reads back as %q, %v", s, text, writeFitting(got, s), err)
			}
		}
	}
	columns := []unit.Column{unit.Any(unit.Length), unit.Any(unit.Flow)}
	for _, s := range []unit.System{unit.Metric, unit.Imperial} {
		text := joinNumbers([]float64{1200.25, 0.4}, columns, s)
		got, err := unit.ParseColumns(text, columns, 2, s)
		if err != nil || joinNumbers(got, columns, s) != text {
			t.Errorf("%s: %q reads back as %v, %v", s, text, got, err)
		}
	}
}
