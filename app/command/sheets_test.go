package command

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// sheets writes a PDF for each sheet, names them, and makes the folder.
func TestSheetsAreWritten(t *testing.T) {
	folder := filepath.Join(t.TempDir(), "to site")
	var out, errs bytes.Buffer
	if code := Run([]string{"sheets", demos + "1-slab-side-wall.json", "-o", folder, "-paper", "letter"}, &out, &errs); code != exitClean || errs.Len() > 0 {
		t.Fatalf("%d: %s", code, errs.String())
	}
	names := strings.Fields(strings.ReplaceAll(out.String(), folder, ""))
	if len(names) != 3 {
		t.Errorf("named: %q", names)
	}
	for _, name := range names {
		data, err := os.ReadFile(folder + name)
		if err != nil || !bytes.HasPrefix(data, []byte("%PDF-")) || !bytes.Contains(data, []byte("612.00 792.00")) {
			t.Errorf("%s: %v, %d bytes, not a PDF of Letter", name, err, len(data))
		}
	}
}

// What cannot be done is said, and nothing half-made is left.
func TestSheetsThatCannotBe(t *testing.T) {
	folder := t.TempDir()
	file := filepath.Join(folder, "file")
	if err := os.WriteFile(file, nil, 0o600); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		args []string
		says string
	}{
		{[]string{demos + "1-slab-side-wall.json", "-paper", "papyrus"}, "no paper “papyrus”"},
		{[]string{demos + "1-slab-side-wall.json", "-sheet", "poem"}, "no sheet “poem”"},
		{[]string{demos + "1-slab-side-wall.json", "-o", file}, "cannot be made"},
		{[]string{"no-such-job.json"}, "no-such-job.json"},
		{nil, "one job"},
	} {
		var out, errs bytes.Buffer
		if code := Run(append([]string{"sheets"}, c.args...), &out, &errs); code != exitBad || !strings.Contains(errs.String(), c.says) || out.Len() > 0 {
			t.Errorf("%v: %d, %q, %q", c.args, code, out.String(), errs.String())
		}
	}
	if left, err := os.ReadDir(folder); err != nil || len(left) != 1 {
		t.Errorf("left: %v, %v", left, err)
	}
}
