package command

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// sheets writes a PDF for each sheet, names them, and makes the folder.
func TestSheetsAreWritten(t *testing.T) {
	folder := filepath.Join(t.TempDir(), "to site")
	var out, errs bytes.Buffer
	args := []string{"sheets", demos + "1-slab-side-wall.json", "-o", folder, "-paper", "letter", "-without-picture"}
	if code := Run(args, &out, &errs); code != exitClean || errs.Len() > 0 {
		t.Fatalf("%d: %s", code, errs.String())
	}
	names := strings.Fields(strings.ReplaceAll(out.String(), folder, ""))
	if len(names) != 6 {
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
		{[]string{demos + "1-slab-side-wall.json", "-o", folder, "-sheet", "order", "-logo", file}, "is no picture"},
		{[]string{demos + "1-slab-side-wall.json", "-o", folder, "-sheet", "order", "-logo", file + ".png"}, "cannot be read"},
		{nil, "one job"},
	} {
		var out, errs bytes.Buffer
		code := Run(append([]string{"sheets"}, c.args...), &out, &errs)
		if code != exitBad || !strings.Contains(errs.String(), c.says) || out.Len() > 0 {
			t.Errorf("%v: %d, %q, %q", c.args, code, out.String(), errs.String())
		}
	}
	if left, err := os.ReadDir(folder); err != nil || len(left) != 1 {
		t.Errorf("left: %v, %v", left, err)
	}
}

// A list of prices is written, filled in, and quoted by: what has no price is left out of the sum and told, bad rows are named.
func TestQuote(t *testing.T) {
	folder := t.TempDir()
	prices, job := filepath.Join(folder, "prices.csv"), demos+"1-slab-side-wall.json"
	run := func(want int, args ...string) (string, string) {
		t.Helper()
		var out, errs bytes.Buffer
		if code := Run(args, &out, &errs); code != want {
			t.Fatalf("%v: %d: %s", args, code, errs.String())
		}
		return out.String(), errs.String()
	}
	if _, errs := run(exitBad, "sheets", job, "-o", folder, "-sheet", "quote"); !strings.Contains(errs, "-prices-out") {
		t.Errorf("without prices: %s", errs)
	}
	run(exitClean, "order", job, "-prices-out", prices)
	data, err := os.ReadFile(prices)
	if err != nil || bytes.Count(data, []byte("\nitem,")) < 20 {
		t.Fatalf("%v: %s", err, data)
	}
	filled := strings.Replace(strings.Replace(string(data), "currency,,", "currency,GBP,", 1), "Solvent cement,,", "Solvent cement,7.50,", 1) +
		"work,Fitting,,100,2\nwork,Talk,,free,1\n"
	if err := os.WriteFile(prices, []byte(filled), 0o600); err != nil {
		t.Fatal(err)
	}
	run(exitClean, "order", demos+"2-loft-joists-across.json", "-prices-out", prices) // adds what another job takes
	if data, err = os.ReadFile(prices); err != nil || !strings.Contains(string(data), "Solvent cement,7.5,") || len(data) <= len(filled)-40 {
		t.Errorf("%v: what was filled in is gone:\n%s", err, data)
	}
	if err := os.WriteFile(prices, []byte(filled), 0o600); err != nil {
		t.Fatal(err)
	}
	out, errs := run(exitClean, "sheets", job, "-o", folder, "-prices", prices, "-customer", "A. Example", "-until", "31 May 2026",
		"-without-picture")
	if !strings.Contains(out, "-quote.pdf") || !strings.Contains(errs, "“free” is no price") {
		t.Errorf("%q, %q", out, errs)
	}
	if _, err := exec.LookPath("pdftotext"); err != nil {
		t.Skip("pdftotext is not installed")
	}
	text, err := exec.Command("pdftotext", "-layout", filepath.Join(folder, "1-slab-side-wall-quote.pdf"), "-").Output()
	if err != nil {
		t.Fatal(err)
	}
	for _, says := range []string{"For A. Example", "Valid until 31 May 2026.", "£207.50", "have no price"} { // 7.50 + 2 × 100
		if !strings.Contains(string(text), says) {
			t.Errorf("the quote does not say “%s”:\n%s", says, text)
		}
	}
}
