package command_test

import (
	"os"
	"path/filepath"
	"reflect"
	"regexp"
	"strings"
	"testing"
	"unicode"

	"underfall/app/words"
	"underfall/assets"
	"underfall/geometry/part"
)

// blueTile is a file of one part of somebody's own.
const blueTile = `kind,id,field,value
shelf,,version,1
tile,blue,called,Blue tile
tile,blue,regions[0],UK
tile,blue,source.mark,common-practice
tile,blue,thicknessMM,8
tile,blue,toleranceMM,0.5
tile,blue,lengthMM,197
tile,blue,widthMM,197
tile,blue,jointMM,3
`

func put(t *testing.T, path, text string) string {
	t.Helper()
	if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
	return path
}

// The parts that come with Underfall are listed, and then the user's own before those
// of their kind.
func TestPartsAreListed(t *testing.T) {
	folder := t.TempDir()
	code, out, errs := run("parts", "-config", folder)
	for _, line := range []string{
		`(?m)^Timber +c24 +Softwood C24 +UK IE DE NZ AU$`,
		`(?m)^Pipe +pvc-schedule-40 +Solvent-weld PVC drain pipe, schedule 40 +US$`,
		`(?m)^Boards +screed +Screed +everywhere$`,
	} {
		if !regexp.MustCompile(line).MatchString(out) {
			t.Errorf("there is no %s in\n%s", line, out)
		}
	}
	all, err := assets.Parts()
	if err != nil {
		t.Fatal(err)
	}
	n := len(all.IDs())
	if lines := strings.Count(out, "\n"); code != 0 || errs != "" || lines != n {
		t.Errorf("code %d, %d lines, want %d, %q", code, lines, n, errs)
	}
	if entries, _ := os.ReadDir(folder); len(entries) > 0 {
		t.Errorf("listing leaves %v", entries)
	}
	blue := put(t, filepath.Join(folder, "blue.csv"), blueTile)
	if code, out, errs := run("parts", "-config", folder, "-import", blue); code != 0 || !strings.Contains(out, "1 part of "+folder) {
		t.Fatalf("code %d, %q, %q", code, out, errs)
	}
	if _, out, _ := run("parts", "-config", folder); !regexp.MustCompile(`\nTile +blue +Blue tile +UK\nTile +mosaic-50 `).MatchString(out) {
		t.Errorf("the user's own tile does not stand before the others:\n%s", out)
	}
}

// All parts at hand go into a file, and come from it on another computer; what is
// there already is no change.
func TestPartsGoToAnotherComputer(t *testing.T) {
	mine, theirs := t.TempDir(), t.TempDir()
	if code, _, errs := run("parts", "-import", put(t, filepath.Join(mine, "blue.csv"), blueTile), "-config", mine); code != 0 {
		t.Fatal(errs)
	}
	for _, name := range []string{"all.csv", "all.json"} {
		path := filepath.Join(mine, name)
		if code, out, errs := run("parts", "-config", mine, "-export", path); code != 0 || !strings.Contains(out, "parts are in "+path) {
			t.Fatalf("code %d, %q, %q", code, out, errs)
		}
	}
	csv, json := filepath.Join(mine, "all.csv"), filepath.Join(mine, "all.json")
	if code, out, errs := run("parts", "-config", theirs, "-import", csv); code != 0 || !strings.HasPrefix(out, "1 part of ") {
		t.Errorf("code %d, %q, %q", code, out, errs)
	}
	if code, out, errs := run("parts", "-config", theirs, "-import", json); code != 0 || !strings.HasPrefix(out, "Nothing in ") {
		t.Errorf("code %d, %q, %q", code, out, errs)
	}
	data, err := os.ReadFile(filepath.Join(theirs, "parts.json"))
	if err != nil {
		t.Fatal(err)
	}
	s, err := part.ParseShelf(data)
	if err != nil || len(s.Tiles) != 1 || s.Tiles[0].Called != "Blue tile" || len(s.IDs()) != 0 {
		t.Errorf("%v, %+v", err, s)
	}
	table, err := os.ReadFile(csv)
	if err != nil {
		t.Fatal(err)
	}
	fromTable, err := part.ParseCSV(table)
	if err != nil {
		t.Fatal(err)
	}
	if data, err = os.ReadFile(json); err != nil {
		t.Fatal(err)
	}
	if s, err = part.ParseShelf(data); err != nil || !reflect.DeepEqual(s, fromTable) {
		t.Errorf("the two files differ, %v", err)
	}
}

// What cannot be used is refused with a sentence, and nothing is kept.
func TestPartsRefused(t *testing.T) {
	folder, files := t.TempDir(), t.TempDir()
	file := func(name, text string) string { return put(t, filepath.Join(files, name), text) }
	with := func(name, old, new string) string { return file(name, strings.Replace(blueTile, old, new, 1)) }
	for says, args := range map[string][]string{
		"underfall parts -import":         {"-import", "a", "-export", "b"},
		"underfall parts -export":         {"list"},
		"loud":                            {"-loud"},
		"none.csv: there is no such file": {"-import", filepath.Join(files, "none.csv")},
		"this is a folder":                {"-import", files},
		"line 8: Tile “Blue tile”, lengthMM: must be between 5 mm": {"-import", with("small.csv", "lengthMM,197", "lengthMM,1")},
		"line 8: no part of this kind has “longMM”":                {"-import", with("long.csv", "lengthMM", "longMM")},
		"Tile “blue” has no name":                                  {"-import", with("nameless.csv", "tile,blue,called,Blue tile\n", "")},
		"newer version":                                            {"-import", with("newer.csv", "version,1", "version,2")},
		"damaged":                                                  {"-import", file("table.json", blueTile)},
		"ends in .json, or in .csv":                                {"-export", filepath.Join(files, "parts.xls")},
		"the folder is not there":                                  {"-export", filepath.Join(files, "no", "parts.csv")},
	} {
		refused(t, says, append([]string{"parts", "-config", folder}, args...)...)
	}
	if entries, err := os.ReadDir(folder); err != nil || len(entries) > 0 {
		t.Errorf("kept is %v, %v", entries, err)
	}
}

// Where the user's own parts cannot be read, the program goes on with its own, says
// so, and leaves the file as it is.
func TestOwnPartsDamaged(t *testing.T) {
	folder := t.TempDir()
	path := put(t, filepath.Join(folder, "parts.json"), `{"version": 1, "tiles": [`)
	code, out, errs := run("parts", "-config", folder)
	leftOut := "Your own parts are left out, and their file stays as it is: Reading " + path + ": "
	if code != 2 || !strings.Contains(out, "Softwood C24") || !strings.Contains(errs, leftOut) {
		t.Errorf("code %d, %.80q, %q", code, out, errs)
	}
	blue := put(t, filepath.Join(t.TempDir(), "blue.csv"), blueTile)
	if code, _, errs := run("parts", "-config", folder, "-import", blue); code != 2 || !strings.Contains(errs, "stays as it is") {
		t.Errorf("code %d, %q", code, errs)
	}
	if data, err := os.ReadFile(path); err != nil || string(data) != `{"version": 1, "tiles": [` {
		t.Errorf("the file is %q, %v", data, err)
	}
	export := filepath.Join(folder, "all.csv")
	if code, _, errs := run("parts", "-config", folder, "-export", export); code != 2 || !strings.Contains(errs, "left out") {
		t.Errorf("code %d, %q", code, errs)
	}
	if _, err := os.Stat(export); err != nil {
		t.Error("the parts that come with Underfall were not written")
	}
}

// In the made-up language everything of the list stands in brackets but ids, regions
// and what somebody has named.
func TestPartsListIsTranslated(t *testing.T) {
	t.Setenv("UNDERFALL_LANGUAGE", words.MadeUp)
	all, err := assets.Parts()
	if err != nil {
		t.Fatal(err)
	}
	_, out, errs := run("parts", "-config", t.TempDir())
	lines := strings.Split(strings.TrimSpace(out), "\n")
	n := 0
	for p := range all.Each {
		rest := strings.Replace(words.Outside(lines[n]), p.Of().ID, "", 1)
		for _, r := range p.Of().Regions {
			rest = strings.Replace(rest, r, "", 1)
		}
		if strings.IndexFunc(rest, unicode.IsLetter) >= 0 {
			t.Errorf("“%s”", lines[n])
		}
		n++
	}
	if n != len(lines) || errs != "" {
		t.Errorf("%d lines for %d parts, %q", len(lines), n, errs)
	}
	_, out, errs = run("parts", "-config", t.TempDir(), "-import", "none.csv")
	if said := strings.TrimSpace(out + errs); !strings.HasPrefix(said, "[") || !strings.HasSuffix(said, "]") {
		t.Errorf("“%s”", said)
	}
}
