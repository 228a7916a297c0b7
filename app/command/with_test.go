package command_test

import (
	"encoding/json"
	"path/filepath"
	"strings"
	"testing"

	"underfall/geometry/job"
)

// startingJob writes the starting job, whose shower has a tile of 9 on a bed of 3 and
// tanking of 1, and says where.
func startingJob(t *testing.T) string {
	t.Helper()
	data, err := job.New().Marshal()
	if err != nil {
		t.Fatal(err)
	}
	return put(t, filepath.Join(t.TempDir(), "job.json"), string(data))
}

// A part at hand, by its id or its kind and id, or one from a file is tried; what it says
// and how it ends go by whether it goes. The blue tile of 8 lies 1 lower than that of 9.
func TestCheckWith(t *testing.T) {
	path, folder := startingJob(t), t.TempDir()
	blue := put(t, filepath.Join(t.TempDir(), "blue.csv"), blueTile)
	two := put(t, filepath.Join(t.TempDir(), "two.csv"), blueTile+strings.ReplaceAll(strings.SplitN(blueTile, "\n", 3)[2], "blue", "green"))
	nameless := put(t, filepath.Join(t.TempDir(), "nameless.csv"), strings.Replace(blueTile, "tile,blue,called,Blue tile\n", "", 1))
	// One of the user's own has the id of a class of timber.
	own := put(t, filepath.Join(t.TempDir(), "own.csv"), strings.ReplaceAll(blueTile, "tile,blue,", "tile,c24,"))
	if code, _, errs := run("parts", "-config", folder, "-import", own); code != 0 {
		t.Fatal(errs)
	}
	broken := t.TempDir()
	put(t, filepath.Join(broken, "parts.json"), "{")
	for name, c := range map[string]struct {
		args []string
		code int
		says []string // on the standard output, or where the input is bad among the errors
	}{
		"nothing changes": {[]string{"-with", "c24"}, 0, []string{"Softwood C24 goes with this floor. Nothing else changes.\n"}},
		"it changes": {[]string{"-with", blue}, 0,
			[]string{"Blue tile goes with this floor. What changes:\n", "\n  Tile at the drain -1 mm, to "}},
		"it does not go": {[]string{"-with", "point-nut"}, 1, []string{"Point drain, trap with a nut does not go with this floor:\n" +
			"  The floor falls to a linear drain, and this is a point drain.\n"}},
		"a kind":      {[]string{"-with", "timber:c24"}, 0, []string{"Softwood C24 goes"}},
		"of two, one": {[]string{"-config", folder, "-with", "tile:c24"}, 0, []string{"Blue tile goes"}},
		"of two, none": {[]string{"-config", folder, "-with", "c24"}, 2,
			[]string{"Several parts are called “c24”: say which, as timber:c24 or tile:c24."}},
		"unknown":             {[]string{"-with", "c25"}, 2, []string{"no part “c25” at hand, and no file"}},
		"unknown of its kind": {[]string{"-with", "boards:c24"}, 2, []string{"no part “boards:c24” at hand"}},
		"two in a file":       {[]string{"-with", two}, 2, []string{"two.csv holds 2 parts; give a file with one."}},
		"no name":             {[]string{"-with", nameless}, 2, []string{"nameless.csv"}},
		"not a file of parts": {[]string{"-with", path}, 2, []string{"job.json"}},
		"own parts broken":    {[]string{"-config", broken, "-with", "blue"}, 2, []string{"parts.json"}},
		"known all the same":  {[]string{"-config", broken, "-with", "c24"}, 0, []string{"Nothing else changes"}},
		"with chances":        {[]string{"-with", "c24", "-chances", "100"}, 2, []string{"underfall check JOB -with PART"}},
		"as JSON":             {[]string{"-json", "-with", "point-nut"}, 1, []string{`"goes": false`, `"why": [`}},
	} {
		args := append([]string{"check", "-config", t.TempDir(), path}, c.args...)
		code, out, errs := run(args...)
		said := out
		if c.code == 2 {
			said = errs
			if out != "" {
				t.Errorf("%s: prints %q", name, out)
			}
		}
		if code != c.code {
			t.Errorf("%s: code %d, %q, %q", name, code, out, errs)
		}
		for _, s := range c.says {
			if !strings.Contains(said, s) {
				t.Errorf("%s: %q lacks %q", name, said, s)
			}
		}
	}
}

// In JSON the answer has its numbers: the blue tile is 1 thinner than the one there is,
// and nothing of the base changes.
func TestCheckWithAsJSON(t *testing.T) {
	blue := put(t, filepath.Join(t.TempDir(), "blue.csv"), blueTile)
	code, out, errs := run("check", "-json", "-with", blue, startingJob(t))
	var answer struct {
		Part          struct{ Kind, ID, Name string }
		Goes, Changes bool
		Why           []string
		RaiseByMM     float64
		Rows          []struct {
			Label, Kind   string
			Before, After *float64
			ByMM          float64
		}
		New, Gone []any
	}
	if err := json.Unmarshal([]byte(out), &answer); err != nil || code != 0 {
		t.Fatalf("code %d, %v, %q", code, err, errs)
	}
	if p := answer.Part; p.Kind != "tile" || p.ID != "blue" || p.Name != "Blue tile" {
		t.Errorf("%+v", p)
	}
	if !answer.Goes || !answer.Changes || answer.RaiseByMM != 0 || len(answer.Why) > 0 {
		t.Errorf("%+v", answer)
	}
	found := false
	for _, r := range answer.Rows {
		if r.ByMM != -1 || r.Before == nil || r.After == nil || *r.Before-*r.After < 0.999 || *r.Before-*r.After > 1.001 {
			t.Errorf("%+v", r)
		}
		found = found || r.Label == "Tile at the drain" && r.Kind == "level"
	}
	if !found || answer.New == nil || answer.Gone == nil {
		t.Errorf("%s", out)
	}
}
