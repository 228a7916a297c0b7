package main

import (
	"go/token"
	"go/types"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"
)

// subjectOf is a package of one file.
func subjectOf(t *testing.T, imports types.Importer, text string) *subject {
	t.Helper()
	s := &subject{path: "p", set: token.NewFileSet(), imports: imports, tested: true,
		files: []*source{{name: "p.go", path: "/p/p.go", text: []byte(text)}}}
	if err := s.check(); err != nil {
		t.Fatal(err)
	}
	return s
}

// Every kind of change, and what is left alone: the lines that one line may
// turn into, in order.
func TestEveryKindOfChange(t *testing.T) {
	const head = `package p

import (
	"errors"
	"fmt"
	"math"
)

var (
	_ = errors.New
	_ = fmt.Errorf
	_ = math.Max
	x, y float64
	n    int
	a, b bool
	s    string
)

`
	// As go list finds them, which knows where the standard library is however this test was built.
	listed, err := listing(t.Context(), ".", "errors", "fmt", "math")
	if err != nil {
		t.Fatal(err)
	}
	imports := importerOf(token.NewFileSet(), listed)
	for line, want := range map[string][]string{
		"var v = x + y":                        {"var v = x - y"},
		"var v = x - y":                        {"var v = x + y"},
		"var v = x * y":                        {"var v = x / y"},
		"var v = x / y":                        {"var v = x * y"},
		"var v = n % n":                        {"var v = n * n"},
		"var v = s + s":                        nil,
		"func f() { x += y }":                  {"func f() { x -= y }"},
		"func f() { x -= y }":                  {"func f() { x += y }"},
		"func f() { x *= y }":                  {"func f() { x /= y }"},
		"func f() { x /= y }":                  {"func f() { x *= y }"},
		"func f() { s += s }":                  nil,
		"func f() { n++ }":                     {"func f() { n-- }"},
		"func f() { n-- }":                     {"func f() { n++ }"},
		"var v = x < y":                        {"var v = x <= y", "var v = x >= y"},
		"var v = x <= y":                       {"var v = x < y", "var v = x > y"},
		"var v = x > y":                        {"var v = x >= y", "var v = x <= y"},
		"var v = x >= y":                       {"var v = x > y", "var v = x < y"},
		"var v = s == s":                       {"var v = s != s"},
		"var v = s != s":                       {"var v = s == s"},
		"var v = a && b":                       {"var v = a || b"},
		"var v = a || b":                       {"var v = a && b"},
		"var v = !a":                           {"var v = a"},
		"var v = -x":                           {"var v = x"},
		"var v = +x":                           nil,
		"const v = 3":                          {"const v = 4"},
		"var v = math.Inf(1)":                  nil,
		"var v = math.Inf(-1)":                 {"var v = math.Inf(1)"},
		"const v = 0":                          {"const v = 1"},
		"const v = 2.5":                        {"const v = 2.75"},
		"const v = 0.0":                        {"const v = 1.0"},
		"const v = 10.0":                       {"const v = 11.0"},
		"const v = 1.31e-6":                    {"const v = 1.441e-06"},
		"const v float64 = 3":                  {"const v float64 = 3.3"},
		"var v = 0x10":                         {"var v = 17"},
		"var v = x * 1000":                     {"var v = x / 1000", "var v = x * 1100"},
		"const ( v = 7 - iota; w )":            nil,
		"var v [3]float64":                     nil,
		`var v = "12"`:                         nil,
		"var v = 'x'":                          nil,
		"var v = make([]int, 0, 8*n)":          {"var v = make([]int, 1, 8*n)"},
		"var v = math.Min(x, y)":               {"var v = math.Max(x, y)"},
		"var v = math.Max(x, y)":               {"var v = math.Min(x, y)"},
		"var v = min(x, y)":                    {"var v = max(x, y)"},
		"var v = max(x, y)":                    {"var v = min(x, y)"},
		"func f() { if a { n = n } }":          {"func f() { if false && (a) { n = n } }"},
		"func f() bool { return a }":           {"func f() bool { return !(a) }"},
		"func f() bool { return true }":        {"func f() bool { return false }"},
		"func f() bool { return !a }":          {"func f() bool { return a }"},
		"func f() bool { return s == s }":      {"func f() bool { return s != s }"},
		"func f() bool { return a && b }":      {"func f() bool { return !(a && b) }", "func f() bool { return a || b }"},
		"func f() (int, bool) { return n, a }": {"func f() (int, bool) { return n, !(a) }"},
		"func f() { panic(n + 1) }":            nil,
		`var v = fmt.Errorf("%v", n+1)`:        nil,
		`var v = errors.New(s[n+1:])`:          nil,
	} {
		var got []string
		for _, m := range subjectOf(t, imports, head+line+"\n").mutants() {
			if m.line != strings.Count(head, "\n")+1 || m.lineText != line {
				t.Errorf("%s: the change is said to be in line %d, %q", line, m.line, m.lineText)
			}
			text, ok := strings.CutPrefix(string(m.mutated()), head)
			if !ok {
				t.Fatalf("%s: another line is changed", line)
			}
			if !m.compiles() {
				t.Errorf("%s: %s does not compile", line, text)
			}
			got = append(got, strings.TrimSuffix(text, "\n"))
		}
		if !slices.Equal(got, want) {
			t.Errorf("%s: turns into\n%s\nwant\n%s", line, strings.Join(got, "\n"), strings.Join(want, "\n"))
		}
	}
}

// drawn are the changes that a draw gives out.
func drawn(d *draw) []string {
	var out []string
	for m, ok := d.next(); ok; m, ok = d.next() {
		out = append(out, m.change())
	}
	return out
}

func TestDrawRepeats(t *testing.T) {
	all := subjectOf(t, nil, "package p\n\nvar v = []int{1, 2, 3, 4, 5, 6, 7, 8, 9}\n").mutants()
	first := drawn(newDraw(all, 3, mutant.compiles))
	if again := drawn(newDraw(all, 3, mutant.compiles)); !slices.Equal(first, again) {
		t.Errorf("one seed draws %v and %v", first, again)
	}
	other := drawn(newDraw(all, 4, mutant.compiles))
	if slices.Equal(first, other) {
		t.Errorf("two seeds draw %v", first)
	}
	slices.Sort(first)
	slices.Sort(other)
	if len(first) != 9 || !slices.Equal(first, other) {
		t.Errorf("drawn are %v and %v, want every change once", first, other)
	}
}

// An index past the end does not compile: the other number is always drawn.
func TestWhatDoesNotCompileIsDrawnAnew(t *testing.T) {
	all := subjectOf(t, nil, "package p\n\nvar a [2]int\n\nvar v, w = a[1], 5\n").mutants()
	if len(all) != 2 {
		t.Fatalf("%d mutants, want 2", len(all))
	}
	for seed := range uint64(10) {
		if got := drawn(newDraw(all, seed, mutant.compiles)); !slices.Equal(got, []string{"5 to 6"}) {
			t.Errorf("seed %d draws %v", seed, got)
		}
	}
}

// The same change twice in a line is told apart.
func TestChangesOfALineAreToldApart(t *testing.T) {
	var got []string
	for _, m := range subjectOf(t, nil, "package p\n\nfunc f(a, b, c int) int { return a + b + c }\n").mutants() {
		got = append(got, m.change())
	}
	if want := []string{"+ to -", "+ to - (2)"}; !slices.Equal(got, want) {
		t.Errorf("%v, want %v", got, want)
	}
}

// Every fate a mutant may meet, with the go command on a module of its own.
func TestFates(t *testing.T) {
	folder := t.TempDir()
	for name, text := range map[string]string{
		"go.mod": "module sample\n\ngo 1.26\n",
		"sample.go": `package sample

const two = 2

func up(n int) int {
	for n < 5 {
		n++
	}
	return n
}

func rough(n int) int { return n + 1 }

func idle(a bool) bool { return !a }
`,
		"sample_test.go": `package sample

import "testing"

// With another number than two this does not compile.
var _ = [1]int{}[two-2]

func TestSample(t *testing.T) {
	if up(0) != 5 || rough(0) < 1 {
		t.Fail()
	}
}
`,
	} {
		if err := os.WriteFile(filepath.Join(folder, name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	subjects, err := load(t.Context(), folder, "sample")
	if err != nil {
		t.Fatal(err)
	}
	want := map[string]fate{"5 to 6": killed, "1 to 2": survived, "!a to a": uncovered, "++ to --": timedOut}
	all := slices.DeleteFunc(subjects[0].mutants(), func(m mutant) bool { return want[m.change()] == "" && m.was != "2" })
	if len(all) != len(want)+1 {
		t.Fatalf("%d mutants, want %d", len(all), len(want)+1)
	}
	j := judge{limit: time.Second, baselines: map[*subject]*baseline{}}
	// All are asked for; the one that does not compile does not count.
	verdicts, err := j.judgeSample(t.Context(), newDraw(all, 1, mutant.compiles), len(all), 2)
	if err != nil {
		t.Fatal(err)
	}
	got := map[string]fate{}
	for _, v := range verdicts {
		got[v.change()] = v.fate
	}
	if !maps.Equal(got, want) {
		t.Errorf("%v, want %v", got, want)
	}
}

func TestCovered(t *testing.T) {
	blocks, err := parseProfile([]byte("mode: set\np/p.go:3.10,9.2 2 1\np/p.go:5.3,6.4 1 0\np/q.go:3.10,9.2 1 0\n"))
	if err != nil {
		t.Fatal(err)
	}
	file := &source{path: "/p/p.go"}
	for at, want := range map[place]bool{{1, 1}: true, {3, 10}: true, {5, 2}: true, {5, 3}: false, {6, 3}: false, {6, 4}: true, {20, 1}: true} {
		if got := covered(blocks, mutant{of: &subject{path: "p"}, file: file, line: at.line, column: at.column}); got != want {
			t.Errorf("%v: covered %v, want %v", at, got, want)
		}
	}
	if _, err := parseProfile([]byte("p/p.go:nonsense\n")); err == nil {
		t.Error("nonsense is read as coverage")
	}
}

// A named equivalent does not count, unless it was killed all the same; too
// small a share fails.
func TestReport(t *testing.T) {
	all := subjectOf(t, nil, "package p\n\nvar v = []int{1, 2, 3}\n").mutants()
	known, err := parseEquivalents("# a remark\np.go\tvar v = []int{1, 2, 3}\t1 to 2\tnobody looks\np.go\tvar v = []int{1, 2, 3}\t3 to 4\tnobody cares\n")
	if err != nil {
		t.Fatal(err)
	}
	if err := known.checkAgainst(all); err != nil {
		t.Error(err)
	}
	verdicts := []verdict{{mutant: all[2], fate: killed}, {mutant: all[1], fate: uncovered}, {mutant: all[0], fate: survived}}
	var out strings.Builder
	if err := report(&out, verdicts, known, 0.5); err != nil {
		t.Error(err)
	}
	const want = `  mutants  killed  survived  uncovered  timed out  share  tests  package
        2       1         0          1          0   50 %   none  p
        2       1         0          1          0   50 %         all

Not noticed:
p.go:3:18: 2 to 3 (uncovered)
	var v = []int{1, 2, 3}

Changes nothing, not counted:
p.go:3:15: 1 to 2 (nobody looks)
	var v = []int{1, 2, 3}
`
	if out.String() != want {
		t.Errorf("%s\nwant\n%s", out.String(), want)
	}
	if err := report(&out, verdicts, known, 0.6); err == nil {
		t.Error("half is taken for six tenths")
	}
}

func TestEquivalents(t *testing.T) {
	if _, err := parseEquivalents("p.go\tvar v = 1\t1 to 2\t\n"); err == nil {
		t.Error("an entry goes without a reason")
	}
	gone, err := parseEquivalents("p.go\tvar v = 1\t1 to 2\tas it was\n")
	if err != nil {
		t.Fatal(err)
	}
	if err := gone.checkAgainst(subjectOf(t, nil, "package p\n\nvar v = 2\n").mutants()); err == nil {
		t.Error("an entry may name what is not there")
	}
	if _, err := parseEquivalents(equivalentText); err != nil {
		t.Error(err)
	}
}

func TestChosen(t *testing.T) {
	for suffixes, want := range map[string]bool{"": true, "level": true, "plan,level": true, "geometry/level": true, "evel": false, "plan": false} {
		if got := chosen("underfall/geometry/level", suffixes); got != want {
			t.Errorf("%q: %v, want %v", suffixes, got, want)
		}
	}
}
