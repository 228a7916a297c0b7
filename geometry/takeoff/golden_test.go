package takeoff_test

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"underfall/assets"
	"underfall/geometry"
	"underfall/geometry/demotest"
	"underfall/geometry/takeoff"
)

var update = flag.Bool("update", false, "write the golden files")

// number is one with decimals, which machines round in their own ways.
var number = regexp.MustCompile(`-?\d+\.\d+(e-?\d+)?`)

func rounded(text string) string {
	return number.ReplaceAllStringFunc(text, func(s string) string {
		v, err := strconv.ParseFloat(s, 64)
		if err != nil {
			return s
		}
		return strconv.FormatFloat(v, 'g', 6, 64)
	})
}

// listed is a list as text: what, how much, in what packs, what is left, which bodies that makes, how
// it was worked out.
func listed(of takeoff.Takeoff) string {
	var b strings.Builder
	for i := range of.Lines {
		l := &of.Lines[i]
		fmt.Fprintf(&b, "%s: %s: %v %s", l.Group, l.Item, l.Needed.Value, l.Needed.Measure)
		if l.Form != "" {
			fmt.Fprintf(&b, " in %d × %s of %v, %v left", l.Packs, l.Form, l.Holds.Value, l.Left.Value)
		}
		fmt.Fprintf(&b, "\n  %s; %s\n", strings.Join(l.Bodies, " "), l.Source.Mark)
		for _, m := range l.How {
			fmt.Fprintf(&b, "  %s\n", m)
		}
	}
	return rounded(b.String())
}

// What each demo takes is as somebody has read it. When a change is meant: go test ./geometry/takeoff
// -run Golden -update, and read what git says has changed.
func TestGolden(t *testing.T) {
	demos, err := assets.Demos()
	if err != nil {
		t.Fatal(err)
	}
	packs := demotest.Packs(t)
	for _, d := range demos {
		r := geometry.Evaluate(d.Job, packs[d.Job.Region])
		got := listed(of(t, &r))
		at := filepath.Join("testdata", strings.TrimSuffix(d.File, ".json")+".golden")
		if *update {
			if err := os.WriteFile(at, []byte(got), 0o644); err != nil {
				t.Fatal(err)
			}
			continue
		}
		want, err := os.ReadFile(at)
		if err != nil {
			t.Fatal(err)
		}
		if got != string(want) {
			a, b := strings.Split(got, "\n"), strings.Split(string(want), "\n")
			for i := range min(len(a), len(b)) {
				if a[i] != b[i] {
					t.Errorf("%s, line %d: %s\n  was: %s", d.File, i+1, a[i], b[i])
					break
				}
			}
			if len(a) != len(b) {
				t.Errorf("%s: %d lines, were %d", d.File, len(a), len(b))
			}
		}
	}
}
