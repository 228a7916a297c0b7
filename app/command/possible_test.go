package command

import (
	"bytes"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"unicode"

	"underfall/app/words"
	"underfall/assets"
	"underfall/geometry/edit"
)

// checked is what check prints.
func checked(args ...string) (code int, out, errs string) {
	var o, e bytes.Buffer
	code = Run(append([]string{"check"}, args...), &o, &e)
	return code, o.String(), e.String()
}

// unknownJob is a file of a starting job of which some is not known.
func unknownJob(t *testing.T, keys ...string) string {
	t.Helper()
	shelf, err := assets.Parts()
	if err != nil {
		t.Fatal(err)
	}
	j := edit.Start("UK", shelf)
	j.Name = "N"
	for _, key := range keys {
		j = edit.Unknown(key).Apply(j)
	}
	j = edit.Assume("layers.room.tile.thicknessMM").Apply(j)
	data, err := j.Marshal()
	if err != nil {
		t.Fatal(err)
	}
	file := filepath.Join(t.TempDir(), "unknown.json")
	if err := os.WriteFile(file, data, 0o600); err != nil {
		t.Fatal(err)
	}
	return file
}

// What is not known comes out in cases: the answer goes by them, in words and in numbers alike, and
// the one look is told with what can hurt in it. A job of which all is known has one case.
func TestCheckSaysWhatItMayComeTo(t *testing.T) {
	file := unknownJob(t, "floor.kind", "shower.widthMM")
	r := reported(t, file)
	p := r.Possible
	if r.Answer.Standing != "not-known" || len(p.Cases) != 5 || len(p.Unknowns) != 1 || p.Unknowns[0].Key != "floor.kind" ||
		!slices.Equal(p.Untried, []string{"shower.widthMM"}) || len(p.Assumed) != 1 {
		t.Fatalf("%s, %+v", r.Answer.Standing, p)
	}
	least, greatest := p.Cases[0].Step.MM, p.Cases[0].Step.MM
	for _, c := range p.Cases {
		least, greatest = min(least, c.Step.MM), max(greatest, c.Step.MM)
		if c.Case == "" || len(c.Is) != 1 || c.Support == "" {
			t.Errorf("%+v", c)
		}
	}
	if p.Step != (reportRange{least, greatest}) || p.Unknowns[0].WorthMM > greatest-least+0.002 || p.Unknowns[0].WorthMM < 10 {
		t.Errorf("from %v to %v, said %+v, worth %v", least, greatest, p.Step, p.Unknowns[0].WorthMM)
	}
	if p.Look == nil || p.Look.Key != "floor.kind" || p.Look.Do == "" || len(p.Look.Careful) < 3 {
		t.Errorf("look %+v", p.Look)
	}
	code, out, errs := checked(file)
	for _, says := range []string{"NOT KNOWN", r.Answer.Headline, p.Cases[1].Case, p.Look.Do, p.Look.Careful[0], "not tried"} {
		if !strings.Contains(out, says) {
			t.Errorf("it does not say %q", says)
		}
	}
	if code != exitClean || errs != "" {
		t.Errorf("code %d, %s", code, errs)
	}
	known := reported(t, demos+"1-slab-side-wall.json")
	if p := known.Possible; len(p.Cases) != 1 || p.Cases[0].Standing != known.Answer.Standing || p.Look != nil || len(p.Unknowns) > 0 {
		t.Errorf("all is known: %+v", p)
	}
}

// All of it has words.
func TestWhatItMayComeToIsTranslated(t *testing.T) {
	t.Setenv("UNDERFALL_LANGUAGE", words.MadeUp)
	packs, err := assets.Rules()
	if err != nil {
		t.Fatal(err)
	}
	for _, keys := range [][]string{{"floor.kind", "waste.exit.kind"}, {"floor.slabThicknessMM", "accessible", "waste.exit.level"},
		{"room.walls[3].kind", "room.walls[3].thicknessMM", "room.doorways[0].neighbourFFLMM"}} {
		_, out, errs := checked(unknownJob(t, keys...))
		_, part, _ := strings.Cut(out, "\n\n")
		for _, r := range packs["UK"].Rules {
			for _, own := range []string{r.Source.Document, r.Source.Edition, r.Source.Clause} {
				if own != "" {
					part = strings.ReplaceAll(part, own, "")
				}
			}
		}
		for _, line := range strings.Split(part+errs, "\n") {
			line = words.Outside(line)
			for _, u := range []string{"mm/m", "mm", "l/min", "l/s", "m/s", "min"} {
				line = strings.ReplaceAll(line, u, "")
			}
			if strings.IndexFunc(line, unicode.IsLetter) >= 0 {
				t.Errorf("%v: “%s”", keys, line)
			}
		}
	}
}
