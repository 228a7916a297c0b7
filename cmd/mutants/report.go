package main

import (
	"cmp"
	"fmt"
	"io"
	"slices"
	"strings"
	"text/tabwriter"
	"time"
)

// tally counts fates.
type tally struct {
	fates map[fate]int
	all   int
	tests time.Duration
}

func (t *tally) count(v verdict) {
	if t.fates == nil {
		t.fates = map[fate]int{}
	}
	t.fates[v.fate]++
	t.all++
	t.tests = max(t.tests, v.tests)
}

// share is the part that was killed.
func (t *tally) share() float64 { return float64(t.fates[killed]) / float64(t.all) }

// report writes a table by packages and what was not noticed, and fails when a
// smaller share than the least was killed.
func report(w io.Writer, verdicts []verdict, known equivalents, least float64) error {
	slices.SortFunc(verdicts, func(a, b verdict) int {
		return cmp.Or(strings.Compare(a.of.path, b.of.path), strings.Compare(a.file.name, b.file.name),
			cmp.Compare(a.start, b.start), strings.Compare(a.becomes, b.becomes))
	})
	var total tally
	byPackage := map[string]*tally{}
	var paths []string
	var unnoticed, nothing []verdict
	for _, v := range verdicts {
		if v.fate != killed && known.reason(v.mutant) != "" {
			nothing = append(nothing, v)
			continue
		}
		if byPackage[v.of.path] == nil {
			byPackage[v.of.path] = &tally{}
			paths = append(paths, v.of.path)
		}
		byPackage[v.of.path].count(v)
		total.count(v)
		if v.fate != killed {
			unnoticed = append(unnoticed, v)
		}
	}
	t := tabwriter.NewWriter(w, 0, 0, 2, ' ', tabwriter.AlignRight)
	fmt.Fprintln(t, "mutants\tkilled\tsurvived\tuncovered\ttimed out\tshare\ttests\t  package")
	row := func(name string, n *tally, tests string) {
		fmt.Fprintf(t, "%d\t%d\t%d\t%d\t%d\t%.0f %%\t%s\t  %s\n", n.all, n.fates[killed], n.fates[survived],
			n.fates[uncovered], n.fates[timedOut], 100*n.share(), tests, name)
	}
	for _, p := range paths {
		tests := "none"
		if n := byPackage[p]; n.tests > 0 {
			tests = fmt.Sprintf("%.1f s", n.tests.Seconds())
		}
		row(p, byPackage[p], tests)
	}
	row("all", &total, "")
	t.Flush()
	list(w, "Not noticed:", unnoticed, func(v verdict) string { return string(v.fate) })
	list(w, "Changes nothing, not counted:", nothing, func(v verdict) string { return known.reason(v.mutant) })
	if total.share() < least {
		return fmt.Errorf("%d of %d mutants were killed: %.1f %%, at least %.1f %% are wanted", total.fates[killed], total.all, 100*total.share(), 100*least)
	}
	return nil
}

// list writes mutants with a remark on each, two lines for each.
func list(w io.Writer, title string, of []verdict, remark func(verdict) string) {
	if len(of) == 0 {
		return
	}
	fmt.Fprintf(w, "\n%s\n", title)
	for _, v := range of {
		fmt.Fprintf(w, "%s:%d:%d: %s (%s)\n\t%s\n", v.file.name, v.line, v.column, v.change(), remark(v), v.lineText)
	}
}
