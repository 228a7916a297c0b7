package section_test

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"underfall/geometry"
	"underfall/geometry/buildup"
	"underfall/geometry/demotest"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/section"
)

var update = flag.Bool("update", false, "write the golden drawings")

// point writes a point to a thousandth of a millimetre.
func point(p plan.Point) string { return number(p.X()) + "," + number(p.Y()) }

func number(v float64) string {
	s := strings.TrimRight(strings.TrimRight(fmt.Sprintf("%.3f", v), "0"), ".")
	if s == "-0" {
		return "0"
	}
	return s
}

// told is a text by its id and its values, to a thousandth.
func told(m message.Message) string {
	out := string(m.ID)
	for _, a := range m.Args {
		switch v := a.Value.(type) {
		case message.Length:
			out += " " + a.Name + " " + number(v.MM)
		case message.InChain:
			out += " " + a.Name + " " + number(v.MM())
		case message.Level:
			out += " " + a.Name + " " + number(v.MM)
		case message.Fall:
			out += " " + a.Name + " " + number(v.Slope*1000) + "/1000"
		default:
			out += " " + a.Name + " " + v.String()
		}
	}
	return out
}

// described is a drawing in lines of text, those of a kind sorted. Areas are told
// by their extent, size and number of corners, and by their hatch 10 apart.
func described(d section.Drawing) []string {
	var out []string
	sorted := func(lines []string) { slices.Sort(lines); out = append(out, lines...) }
	out = append(out, fmt.Sprintf("extent %s to %s, focus %s to %s, rise %s, fault %q", point(d.Low), point(d.High), point(d.FocusLow), point(d.FocusHigh), number(d.Rise), d.Fault.String()))
	var areas, lines, dimensions, marks, names, setOuts, handles []string
	for _, a := range d.Areas {
		low, high, _ := a.Region.Bounds()
		corners, hatch := 0, 0.0
		for _, p := range a.Region {
			for _, ring := range p.Rings() {
				corners += len(ring)
			}
		}
		strokes := section.Hatch(a.Region, section.PatternOf(a.Material), 10)
		for _, s := range strokes {
			hatch += s[1].Sub(s[0]).Len()
		}
		areas = append(areas, fmt.Sprintf("area %s %s %s cut %v: %s to %s, %s mm², %d corners, hatch of %d, %s mm", a.PartID, a.Name, a.Material, a.Cut, point(low), point(high), number(a.Region.Area()), corners, len(strokes), number(hatch)))
	}
	for _, l := range d.Lines {
		var points []string
		for _, p := range l.Points {
			points = append(points, point(p))
		}
		lines = append(lines, fmt.Sprintf("line %s weight %d dashed %v: %s", l.Kind, l.Weight, l.Dashed, strings.Join(points, " ")))
	}
	for _, m := range d.Dimensions {
		dimensions = append(dimensions, fmt.Sprintf("dimension %s row %d to %s key %q: %s to %s", told(m.Text), m.Row, point(m.Side), m.Key, point(m.From), point(m.To)))
	}
	for _, m := range d.Marks {
		marks = append(marks, fmt.Sprintf("mark %s at %s", told(m.Message()), point(m.At)))
	}
	for _, n := range d.Names {
		var texts []string
		for _, m := range n.Texts {
			texts = append(texts, told(m))
		}
		first := "nowhere"
		if len(n.Places) > 0 {
			first = point(n.Places[0].At) + " to " + point(n.Places[0].Side)
		}
		names = append(names, fmt.Sprintf("name %s first %v small %v dot %v: at %s, %d places", strings.Join(texts, " or "), n.First, n.Small, n.Dot, first, len(n.Places)))
	}
	for _, o := range d.SetOuts {
		setOuts = append(setOuts, fmt.Sprintf("set out %s key %q of %s: %s to %s, %d places", told(o.Text), o.Key, point(o.Of), point(o.Spans[0][0]), point(o.Spans[0][1]), len(o.Spans)))
	}
	for _, h := range d.Handles {
		handles = append(handles, fmt.Sprintf("handle %v at %s", h.Moves, point(h.At)))
	}
	for _, lines := range [][]string{areas, lines, dimensions, marks, names, setOuts, handles} {
		sorted(lines)
	}
	return out
}

// The drawings of three demos stay as they were looked at last.
func TestGoldenDrawings(t *testing.T) {
	results, demos := demotest.Results(t), demotest.Rooms(t)
	for _, i := range []int{0, 1, 4} {
		var text strings.Builder
		add := func(title string, lines []string) {
			fmt.Fprintf(&text, "%s\n  %s\n\n", title, strings.Join(lines, "\n  "))
		}
		r := results[i]
		add("through the drain", described(section.Of(r, section.ThroughDrain(r), buildup.StageTile)))
		add("along the run", described(section.Of(r, section.AlongRun(r), buildup.StageTile)))
		add("along the drain, with the former laid", described(section.Of(r, section.Corner(r)[1], buildup.StageFormer)))
		add("plan", described(section.PlanOf(r)))
		add("long section", described(section.LongOf(r)))
		var flow []string
		for _, line := range section.FlowLines(r, 300) {
			var points []string
			for _, p := range line {
				points = append(points, point(p))
			}
			flow = append(flow, strings.Join(points, " "))
		}
		add("flow", flow)
		golden(t, strings.TrimSuffix(demos[i].File, ".json"), text.String(), r)
	}
}

func golden(t *testing.T, name, got string, r geometry.Result) {
	t.Helper()
	file := filepath.Join("testdata", name+".golden")
	if *update {
		if err := os.WriteFile(file, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(strings.Split(string(want), "\n"), strings.Split(got, "\n")); diff != "" {
		t.Errorf("%s (run go test ./geometry/section -update when this is meant):\n%s", r.Settled.Name, diff)
	}
}
