package command

import (
	"bytes"
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"underfall/geometry/job"
	"underfall/geometry/rule"
)

const demos = "../../assets/demos/"

// reported is what check prints of a job as JSON; nothing else is in it.
func reported(t *testing.T, args ...string) report {
	t.Helper()
	var out, errs bytes.Buffer
	Run(append([]string{"check", "-json"}, args...), &out, &errs)
	var r report
	dec := json.NewDecoder(&out)
	dec.DisallowUnknownFields()
	if err := dec.Decode(&r); err != nil {
		t.Fatalf("%v: %s", err, errs.String())
	}
	return r
}

// What is printed as JSON is enough for a second opinion: from its numbers alone every
// limit that is said to be kept is, the others not; every broken one is on a card; pieces
// follow on each other, and the job that is in it can be opened.
func TestTheReportIsEnoughForASecondOpinion(t *testing.T) {
	files, err := filepath.Glob(demos + "*.json")
	if err != nil || len(files) < 6 {
		t.Fatal(files, err)
	}
	for _, file := range files {
		r := reported(t, file, "-chances", "50")
		if r.Version != reportVersion || r.Edition == "" || r.Name == "" || len(r.Levels) < 10 || len(r.Cautions) < 5 ||
			r.Chances == nil || r.Chances.Samples != 50 {
			t.Errorf("%s: version %d, edition %q, %d levels, %d cautions, %+v",
				file, r.Version, r.Edition, len(r.Levels), len(r.Cautions), r.Chances)
		}
		told := map[string]bool{}
		for _, c := range r.Cards {
			for _, f := range c.Places {
				told[f.Quantity+" "+f.ID] = true
				if f.Source == "" || f.Remedy == "" || f.Where == "" || f.Verified == "" || f.Text == "" {
					t.Errorf("%s: %+v lacks something", file, f)
				}
			}
		}
		stops := false
		for _, c := range r.Checks {
			if kept := keeps(c); kept != c.Kept {
				t.Errorf("%s: %s of %s is said to be kept: %v; %v %s %v", file, c.Rule, c.ID, c.Kept, c.Value, c.Compare, c.Limit)
			}
			if !c.Kept && !told[c.Quantity+" "+c.ID] {
				t.Errorf("%s: %s of %s is on no card", file, c.Rule, c.ID)
			}
			stops = stops || !c.Kept && c.Severity == rule.Stop
		}
		if stops != (r.Answer.Standing == "stops") {
			t.Errorf("%s: %s, though a limit stops it: %v", file, r.Answer.Standing, stops)
		}
		ids := map[string]bool{}
		for _, l := range r.Levels {
			if ids[l.ID] {
				t.Errorf("%s: %s is there twice", file, l.ID)
			}
			ids[l.ID] = true
		}
		follows(t, file, r)
		data, err := json.Marshal(r.Job)
		if err != nil {
			t.Fatal(err)
		}
		if j, err := job.Parse(data); err != nil || j.Name != r.Name {
			t.Errorf("%s: the job in it: %v", file, err)
		}
	}
}

// keeps works out from the numbers whether a limit is kept: a millionth either way is not.
func keeps(c reportCheck) bool {
	least, most := c.Limit-1e-6*math.Max(1, math.Abs(c.Limit)), c.Limit+1e-6*math.Max(1, math.Abs(c.Limit))
	value := math.Inf(1)
	if c.Value != nil {
		value = *c.Value
	}
	switch c.Compare {
	case rule.AtLeast:
		return value >= least-1e-6
	case rule.AtMost:
		return value <= most+1e-6
	}
	return value <= most || value >= c.To*(1-1e-6)
}

// follows holds the pieces of the run, the joists they cut and their water together.
func follows(t *testing.T, file string, r report) {
	t.Helper()
	if r.Run == nil {
		t.Errorf("%s: no run", file)
		return
	}
	pieces := map[string]bool{}
	for i, p := range r.Run.Pieces {
		pieces[p.ID] = true
		if i > 0 {
			if before := r.Run.Pieces[i-1]; math.Abs(p.FromMM-before.ToMM) > 0.002 {
				t.Errorf("%s: %s begins at %v, %s ends at %v", file, p.ID, p.FromMM, before.ID, before.ToMM)
			}
		}
		if p.BoreMM <= 0 || p.BoreMM >= p.OutsideMM || len(p.Path) < 1 {
			t.Errorf("%s: %+v", file, p)
		}
	}
	for _, c := range r.Joists {
		if !pieces[c.Piece] || c.TopMM <= c.BottomMM || c.SpanMM <= 0 {
			t.Errorf("%s: %+v", file, c)
		}
	}
	for _, p := range r.Water.Pieces {
		if !pieces[p.Piece] || p.DepthShare < 0 || p.DepthShare > 1 {
			t.Errorf("%s: %+v", file, p)
		}
	}
}

// A report of what cannot be built says so with its numbers: by the gallery's demo of
// that kind.
func TestReportOfWhatCannotBeBuilt(t *testing.T) {
	r := reported(t, demos+"6-cannot-be-built.json")
	a := r.Answer
	if a.Standing != "stops" || a.InHundred != 0 || a.SetBy != "the level of the way out" || a.LowerMM <= 0 || a.NextBy == "" ||
		len(a.Steps) != 2 || !a.Counted || r.Chances != nil {
		t.Errorf("%+v", a)
	}
	if h := r.Heights; h.Bare.RaiseMM > h.Buildable.RaiseMM || h.Buildable.RaiseMM > h.Safe.RaiseMM || h.Safe.Fits < 0.95 || h.SetBy == "" {
		t.Errorf("%+v", h)
	}
	if len(r.Joists) < 5 || len(r.Cards) < 8 || len(r.Later) == 0 {
		t.Errorf("%d crossings, %d cards, %d later", len(r.Joists), len(r.Cards), len(r.Later))
	}
}

// JSON knows no infinity: where water goes over before it stands, its depth is null.
func TestCheckJSONHasNoFalseNumbers(t *testing.T) {
	j := job.New()
	j.Water.ShowerFlowsLPS = []float64{3}
	data, err := j.Marshal()
	if err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "drowned.json")
	if err := os.WriteFile(path, data, 0o644); err != nil {
		t.Fatal(err)
	}
	r := reported(t, path)
	if r.Water.StandsMM != nil {
		t.Errorf("water stands %v", *r.Water.StandsMM)
	}
	unbounded := 0
	for _, c := range r.Checks {
		if c.Value == nil {
			unbounded++
		} else if *c.Value == -1 {
			t.Errorf("%s is said to be -1", c.Rule)
		}
	}
	if unbounded != 1 {
		t.Errorf("%d values without bounds", unbounded)
	}
}

// Every name in the report is told of in the contributors' guide.
func TestTheReportIsDocumented(t *testing.T) {
	documented(t, "## What check prints as JSON", reflect.TypeFor[report]())
}

// documented holds the names of what is printed as JSON against a section of the contributors' guide.
func documented(t *testing.T, heading string, printed reflect.Type) {
	t.Helper()
	guide, err := os.ReadFile("../../DEVELOPERS.md")
	if err != nil {
		t.Fatal(err)
	}
	_, section, found := strings.Cut(string(guide), heading)
	if !found {
		t.Fatal("the guide does not tell of it")
	}
	section, _, _ = strings.Cut(section, "\n## ")
	var names func(of reflect.Type)
	seen := map[reflect.Type]bool{}
	names = func(of reflect.Type) {
		for of.Kind() == reflect.Pointer || of.Kind() == reflect.Slice || of.Kind() == reflect.Array {
			of = of.Elem()
		}
		if of.Kind() != reflect.Struct || of == reflect.TypeFor[job.Job]() || seen[of] {
			return
		}
		seen[of] = true
		for i := range of.NumField() {
			f := of.Field(i)
			name, _, _ := strings.Cut(f.Tag.Get("json"), ",")
			if !strings.Contains(section, "`"+name+"`") {
				t.Errorf("%s of %s is not told of", name, of.Name())
			}
			names(f.Type)
		}
	}
	names(printed)
}
