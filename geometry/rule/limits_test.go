package rule_test

import (
	"bufio"
	"fmt"
	"io/fs"
	"maps"
	"math"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"

	"underfall/geometry/rule"
)

// statedLimit reads a limit as its source states it: a number, a fraction, or
// one with a unit after it.
func statedLimit(t *testing.T, text string) float64 {
	t.Helper()
	if text == "-" {
		return 0
	}
	number, unit, _ := strings.Cut(text, " ")
	over, under, fraction := strings.Cut(number, "/")
	v, err := strconv.ParseFloat(over, 64)
	if err != nil {
		t.Fatalf("%q is no limit: %v", text, err)
	}
	if fraction {
		d, err := strconv.ParseFloat(under, 64)
		if err != nil {
			t.Fatalf("%q is no limit: %v", text, err)
		}
		v /= d
	}
	size, ok := map[string]float64{"": 1, "in": 25.4, "ft": 304.8, "in2": 25.4 * 25.4, "%": 0.01}[unit]
	if !ok {
		t.Fatalf("%q: the unit is not known", text)
	}
	return v * size
}

// statedLimits reads a limit, and the upper one where there are two: 3 to 40.
func statedLimits(t *testing.T, text string) (limit, to float64) {
	t.Helper()
	text, upper, two := strings.Cut(text, " to ")
	if two {
		to = statedLimit(t, upper)
	}
	return statedLimit(t, text), to
}

// where writes when a rule holds as the table does.
func where(w rule.When) string {
	var out []string
	for _, fact := range slices.Sorted(maps.Keys(w.Facts)) {
		out = append(out, fmt.Sprintf("%s %v..%v", fact, w.Facts[fact][0], w.Facts[fact][1]))
	}
	for _, fact := range slices.Sorted(maps.Keys(w.Outside)) {
		out = append(out, fmt.Sprintf("%s outside %v..%v", fact, w.Outside[fact][0], w.Outside[fact][1]))
	}
	out = append(out, w.Tags...)
	for _, tag := range w.Without {
		out = append(out, "no "+tag)
	}
	if len(out) == 0 {
		return "-"
	}
	return strings.Join(out, ", ")
}

// typedOut is testdata/limits.txt by pack and id: every rule of every pack, typed out once
// more with the source the pack names beside it. Nothing writes that file: whoever changes
// a limit changes it in both places, on purpose, with the source in hand.
func typedOut(t *testing.T) map[string][]string {
	t.Helper()
	file, err := os.Open("testdata/limits.txt")
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	rows := map[string][]string{}
	lines := bufio.NewScanner(file)
	for lines.Scan() {
		if lines.Text() == "" || strings.HasPrefix(lines.Text(), "#") {
			continue
		}
		row := strings.Split(lines.Text(), "|")
		for i := range row {
			row[i] = strings.TrimSpace(row[i])
		}
		if len(row) != 9 {
			t.Fatalf("%d columns: %s", len(row), lines.Text())
		}
		if rows[row[0]+" "+row[1]] != nil {
			t.Errorf("%s %s stands twice in the table", row[0], row[1])
		}
		rows[row[0]+" "+row[1]] = row
	}
	if err := lines.Err(); err != nil {
		t.Fatal(err)
	}
	return rows
}

// Every rule of every pack is the one in testdata/limits.txt.
func TestEveryLimitIsAsItsSourceHasIt(t *testing.T) {
	want := typedOut(t)
	packs := os.DirFS("../../assets/rules")
	files, err := fs.Glob(packs, "*.json")
	if err != nil || len(files) != 13 {
		t.Fatalf("%d packs, want 13: %v", len(files), err)
	}
	for _, name := range files {
		data, err := fs.ReadFile(packs, name)
		if err != nil {
			t.Fatal(err)
		}
		pack, err := rule.ParsePack(data)
		if err != nil {
			t.Fatal(err)
		}
		for _, r := range pack.Rules {
			key := pack.Region + " " + r.ID
			row, ok := want[key]
			if !ok {
				t.Errorf("%s is not in the table", key)
				continue
			}
			delete(want, key)
			severity := string(r.Severity)
			if r.Stage != "" {
				severity += ", " + string(r.Stage)
			}
			got := []string{pack.Region, r.ID, r.Quantity, string(r.Compare), row[4], where(r.When), severity, source(r), string(r.Source.Mark)}
			if !slices.Equal(got, row) {
				t.Errorf("the pack has  %s\nthe table has %s", strings.Join(got, " | "), strings.Join(row, " | "))
			}
			limit, to := statedLimits(t, row[4])
			if math.Abs(r.Limit-limit) > 1e-12*math.Max(1, math.Abs(limit)) || math.Abs(r.To-to) > 1e-12*to {
				t.Errorf("%s: the limits are %v and %v, the source has %s", key, r.Limit, r.To, row[4])
			}
			if r.Compare == rule.Present != (row[4] == "-") {
				t.Errorf("%s: a caution has no limit, and only a caution", key)
			}
			holdSides(t, r, row)
		}
	}
	for key := range want {
		t.Errorf("%s is in the table and in no pack", key)
	}
}

// source is where a rule's limit comes from as the table has it.
func source(r rule.Rule) string {
	switch {
	case r.Source.Sheet != "":
		return string(r.Source.Sheet) + " sheet"
	case r.Source.Document == "":
		return "-"
	}
	return r.Source.Title()
}

// holdSides holds a rule against measurements made of the table's row alone: where
// it applies and where not, and on which side of the stated limit it is broken.
func holdSides(t *testing.T, r rule.Rule, row []string) {
	t.Helper()
	stated, upper := statedLimits(t, row[4])
	m := rule.Measurement{Quantity: row[2], Value: stated}
	between, outside := map[string][2]float64{}, map[string][2]float64{}
	var without []string
	for _, w := range strings.Split(row[5], ", ") {
		tag, is := strings.CutPrefix(w, "no ")
		switch {
		case strings.Contains(w, ".."):
			fact, least, most, of := "", 0.0, 0.0, between
			if strings.Contains(w, " outside ") {
				of = outside
			}
			w = strings.Replace(w, " outside ", " ", 1)
			if _, err := fmt.Sscanf(strings.ReplaceAll(w, "..", " "), "%s %g %g", &fact, &least, &most); err != nil {
				t.Fatalf("%q is no range: %v", w, err)
			}
			of[fact] = [2]float64{least, most}
		case is:
			without = append(without, tag)
		case w != "-":
			m.Tags = append(m.Tags, w)
		}
	}
	// Every fact at its least, but for one.
	at := func(fact string, v float64) rule.Measurement {
		m := m
		m.Facts = map[string]float64{}
		for f, b := range between {
			m.Facts[f] = b[0]
		}
		for f, b := range outside {
			m.Facts[f] = b[0] - 0.1
		}
		if fact != "" {
			m.Facts[fact] = v
		}
		return m
	}
	if !r.Applies(at("", 0)) {
		t.Errorf("%s does not hold where it should: %s", r.ID, row[5])
	}
	for fact, b := range between {
		if !r.Applies(at(fact, b[1])) {
			t.Errorf("%s does not hold where it should: %s", r.ID, row[5])
		}
		if r.Applies(at(fact, b[0]-0.1)) || r.Applies(at(fact, b[1]+0.1)) || r.Applies(m) {
			t.Errorf("%s holds beyond %s", r.ID, row[5])
		}
	}
	for fact, b := range outside {
		if !r.Applies(at(fact, b[1]+0.1)) {
			t.Errorf("%s does not hold where it should: %s", r.ID, row[5])
		}
		if r.Applies(at(fact, b[0])) || r.Applies(at(fact, b[1])) || r.Applies(m) {
			t.Errorf("%s holds within what it is outside of: %s", r.ID, row[5])
		}
	}
	for _, tag := range without {
		if with := at("", 0); r.Applies(rule.Measurement{Quantity: with.Quantity, Facts: with.Facts, Tags: append(slices.Clone(m.Tags), tag)}) {
			t.Errorf("%s holds for what is %s", r.ID, tag)
		}
	}
	for _, tag := range m.Tags {
		if r.Applies(rule.Measurement{Quantity: row[2], Facts: at("", 0).Facts}) {
			t.Errorf("%s holds for what is not %s", r.ID, tag)
		}
	}
	if !r.BrokenBy(math.NaN()) {
		t.Errorf("%s lets pass what is not a number", r.ID)
	}
	// A thousandth of the limit, or of a millimetre, is neither here nor there.
	step := math.Max(1e-3, math.Abs(stated)*1e-3)
	over, under, same := r.BrokenBy(stated+step), r.BrokenBy(stated-step), r.BrokenBy(stated)
	switch row[3] {
	case "at-least":
		if over || !under || same {
			t.Errorf("%s, at least %s: over %v, under %v, there %v", r.ID, row[4], over, under, same)
		}
	case "at-most":
		if !over || under || same {
			t.Errorf("%s, at most %s: over %v, under %v, there %v", r.ID, row[4], over, under, same)
		}
	case "not-between":
		if !over || under || same || !r.BrokenBy(upper-step) || r.BrokenBy(upper) || r.BrokenBy(upper+step) {
			t.Errorf("%s, not between %s: over %v, under %v, there %v", r.ID, row[4], over, under, same)
		}
	default:
		if !over || !under || !same {
			t.Errorf("%s is not always said", r.ID)
		}
	}
}
