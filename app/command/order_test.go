package command

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"underfall/geometry/job"
	"underfall/geometry/unit"
)

// ordered is what order prints.
func ordered(t *testing.T, args ...string) string {
	t.Helper()
	var out, errs bytes.Buffer
	if code := Run(append([]string{"order"}, args...), &out, &errs); code != exitClean || errs.Len() > 0 {
		t.Fatalf("%v: %d: %s", args, code, errs.String())
	}
	return out.String()
}

// Every demo's list is printed in millimetres and in inches, with words for all of it and one way of
// writing lengths, and as JSON that says the same.
func TestOrdersOfAllDemos(t *testing.T) {
	files, err := filepath.Glob(demos + "*.json")
	if err != nil || len(files) < 6 {
		t.Fatal(files, err)
	}
	for _, file := range files {
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		j, err := job.Parse(data)
		if err != nil {
			t.Fatal(err)
		}
		for _, units := range []unit.System{unit.Metric, unit.Imperial} {
			j.Units = units
			written, err := j.Marshal()
			if err != nil {
				t.Fatal(err)
			}
			at := filepath.Join(t.TempDir(), "job.json")
			if err := os.WriteFile(at, written, 0o600); err != nil {
				t.Fatal(err)
			}
			text := ordered(t, at)
			table, _, _ := strings.Cut(text, "How it was worked out")
			wrong := []string{" kg", " m²", " ml", "{{", "no words"}
			if units == unit.Metric {
				wrong = []string{" lb", "ft²", "fl oz", "{{", "no words"}
			}
			for _, w := range wrong {
				if strings.Contains(table, w) {
					t.Errorf("%s in %s: “%s” in %s", file, units, w, table)
				}
			}
			var r reportOrder
			dec := json.NewDecoder(strings.NewReader(ordered(t, "-json", at)))
			dec.DisallowUnknownFields()
			if err := dec.Decode(&r); err != nil {
				t.Fatal(err)
			}
			if r.Version != orderVersion || r.Name != j.Name || len(r.Lines) < 20 {
				t.Errorf("%s: version %d of %q with %d lines", file, r.Version, r.Name, len(r.Lines))
			}
			for _, l := range r.Lines {
				if !strings.Contains(table, l.Item) || l.Needed <= 0 || l.Source == "" {
					t.Errorf("%s: %+v", file, l)
				}
			}
		}
	}
}

// What cannot be listed is told, and what is asked wrongly.
func TestOrdersThatCannotBe(t *testing.T) {
	for _, args := range [][]string{{"order"}, {"order", "a.json", "b.json"}, {"order", "no-such-file.json"}, {"order", "-such", demos + "1-slab-side-wall.json"}} {
		var out, errs bytes.Buffer
		if code := Run(args, &out, &errs); code != exitBad || out.Len() > 0 || errs.Len() == 0 {
			t.Errorf("%v: %d, %q, %q", args, code, out.String(), errs.String())
		}
	}
}

// Every name in the order's JSON is told of in the contributors' guide.
func TestTheOrderIsDocumented(t *testing.T) {
	documented(t, "## What order prints as JSON", reflect.TypeFor[reportOrder]())
}
