package app

import (
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
)

// What is put on paper is written under the name that is asked for, one file a sheet, and the fitter's is offered to be opened.
func TestPutOnPaper(t *testing.T) {
	w := edited(t, Options{})
	folder := t.TempDir()
	w.remember(filepath.Join(folder, "x"))
	w.keys.Shortcuts[ctrlName(fyne.KeyP)]()
	if w.saving == nil || !strings.HasPrefix(w.saving.name.Text, w.desk.Job().Name) || w.saving.folder != folder {
		t.Fatalf("nothing is asked, or another name or folder suggested: %+v", w.saving)
	}
	w.saving.name.SetText("to site.pdf")
	tap(t, w, "Save")
	if got := folderNames(t, folder); got != "to site-cutting.pdf to site-fitter.pdf to site-order.pdf to site-templates.pdf" {
		t.Errorf("written: %s", got)
	}
	for _, kind := range []string{"order", "fitter", "cutting", "templates"} {
		if !strings.HasPrefix(readFile(t, filepath.Join(folder, "to site-"+kind+".pdf")), "%PDF-") {
			t.Errorf("the %s sheet is no PDF", kind)
		}
	}
	if !strings.Contains(shown(w), "4 sheets are written") {
		t.Errorf("it is not told:\n%s", shown(w))
	}
	tap(t, w, "Close")
	// Once more under the name: it is asked about first.
	w.putOnPaper()
	w.saving.name.SetText("to site")
	tap(t, w, "Save")
	if !strings.Contains(shown(w), "4 of these 4 files are already in this folder") {
		t.Errorf("it is not asked:\n%s", shown(w))
	}
	tap(t, w, "Cancel")
}
