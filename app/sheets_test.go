package app

import (
	"bytes"
	"image"
	"image/png"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"underfall/app/control"
	"underfall/app/roomtest"
	sheets "underfall/app/sheet"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
)

// onPaper opens the room of sheets and waits for its page.
func onPaper(t *testing.T) *mainWindow {
	t.Helper()
	w := edited(t, Options{})
	w.keys.Shortcuts[ctrlName(fyne.KeyP)]()
	if w.papers == nil {
		t.Fatal("Ctrl-P opens nothing")
	}
	until(t, "a page", func() bool { _, of := w.papers.room.Page(); return of > 0 })
	return w
}

// The fitter's sheet is shown at once; pages are turned by keys, no further than there are; another sheet begins at its first; Escape closes.
func TestPaperIsLookedAt(t *testing.T) {
	w := onPaper(t)
	room := w.papers.room
	_, of := room.Page()
	if of < 3 {
		t.Fatalf("the fitter's sheet has %d pages", of)
	}
	for range of + 2 {
		before, _ := room.Page()
		room.Key(fyne.KeyPageDown)
		until(t, "the next page", func() bool { page, _ := room.Page(); return page == min(before+1, of) })
	}
	room.Choose(string(sheets.Order))
	until(t, "the order", func() bool { page, n := room.Page(); return page == 1 && n < of })
	w.keys.Plain(&fyne.KeyEvent{Name: fyne.KeyEscape})
	if w.papers != nil || w.window.Canvas().Overlays().Top() != nil {
		t.Error("Escape does not close it")
	}
}

// Escape closes what is over the room of sheets, and leaves the room.
func TestEscapeClosesWhatIsOverPaper(t *testing.T) {
	w := onPaper(t)
	over := w.window.Canvas().Overlays()
	alone := len(over.List())
	escape := func(what string, leaves int) {
		t.Helper()
		w.keys.Plain(&fyne.KeyEvent{Name: fyne.KeyEscape})
		if w.papers == nil || len(over.List()) != leaves {
			t.Errorf("%s: after Escape the room is open: %v, with %d over the window, not %d", what, w.papers != nil, len(over.List()), leaves)
		}
	}
	for what, open := range map[string]func(){
		"a file is chosen":        func() { w.chooseFile(endings{".csv"}, func(string) { t.Error("a file is chosen") }) },
		"a folder is chosen":      func() { w.chooseSheetFolder(func(string) { t.Error("a folder is chosen") }) },
		"a picture is waited for": func() { w.waitForPictures("a picture") },
		"the job is saved":        w.saveAs,
	} {
		open()
		if len(over.List()) != alone+1 {
			t.Fatalf("%s: nothing opens", what)
		}
		w.keys.Plain(&fyne.KeyEvent{Name: fyne.KeyPageDown})
		if page, _ := w.papers.room.Page(); page != 1 {
			t.Errorf("%s: pages are turned underneath", what)
		}
		escape(what, alone)
	}
	w.saveAs()
	w.saving.chooseFolder()
	escape("a folder to save in", alone+1)
	escape("the job is saved", alone)
}

// Sheets that are written are not listed as a job; the job is, once it is saved.
func TestSheetsAreNotListed(t *testing.T) {
	w := onPaper(t)
	folder := t.TempDir()
	w.writeSheets(filepath.Join(folder, "bath"), []sheets.Kind{sheets.Order, sheets.Fitter}, sheets.Asked{Paper: sheets.Papers()[0]}, false)
	if names := folderNames(t, folder); strings.Count(names, ".pdf") != 2 {
		t.Fatalf("written: %s", names)
	}
	listsOnly(t, w)
	job := filepath.Join(folder, "bath.json")
	w.saveTo(job, func() {})
	listsOnly(t, w, job)
}

// Two presses write the fitter's sheet: where it goes is told before, and nothing is asked that need not be.
func TestTwoPressesToTheFittersSheet(t *testing.T) {
	w := edited(t, Options{})
	folder := t.TempDir()
	w.prefers.SetString(lastFolder, folder)
	roomtest.EachShown(w.window.Content(), func(o fyne.CanvasObject) {
		if b, ok := o.(*control.ToolButton); ok && b.Text == "Paper" {
			b.OnTapped()
		}
	})
	if w.papers == nil {
		t.Fatal("Paper opens nothing")
	}
	until(t, "the page", func() bool { _, of := w.papers.room.Page(); return of > 0 })
	name := w.desk.Job().Name + "-fitter.pdf"
	if told := w.papers.room.Writes(); !strings.Contains(told, name) || !strings.Contains(told, folder) {
		t.Errorf("it is told to be written %q", told)
	}
	pressesIn(w.window.Canvas().Overlays().Top(), "Save and open")[0].OnPressed()
	if !strings.HasPrefix(readFile(t, filepath.Join(folder, name)), "%PDF-") {
		t.Error("the fitter's sheet is no PDF")
	}
}

// Sheets are written into the folder that is chosen, one file each; what is there is replaced only when that is said; where nothing can be
// written a sentence says so and what was there stays.
func TestPutOnPaper(t *testing.T) {
	w := onPaper(t)
	folder := t.TempDir()
	room := w.papers.room
	room.Into(folder)
	room.Choose("all")
	if told := room.Writes(); !strings.Contains(told, folder) {
		t.Errorf("it is told to be written %q", told)
	}
	name := w.desk.Job().Name
	write := func(folder string, paper int, kinds ...sheets.Kind) {
		w.writeSheets(filepath.Join(folder, name), kinds, sheets.Asked{Paper: sheets.Papers()[paper], By: "A. Fitter"}, false)
	}
	kinds := []sheets.Kind{sheets.Order, sheets.Fitter, sheets.Cutting, sheets.Templates} // the customer's waits for a picture
	write(folder, 0, kinds...)
	for _, kind := range kinds {
		if !strings.HasPrefix(readFile(t, filepath.Join(folder, name+"-"+string(kind)+".pdf")), "%PDF-") {
			t.Errorf("the %s sheet is no PDF", kind)
		}
	}
	if !strings.Contains(shown(w), "4 sheets are written into "+folder) {
		t.Errorf("it is not told:\n%s", shown(w))
	}
	tap(t, w, "Close")
	write(folder, 0, sheets.Order)
	if !strings.Contains(shown(w), "Replace") {
		t.Errorf("it is not asked:\n%s", shown(w))
	}
	tap(t, w, "Cancel")
	order := filepath.Join(folder, name+"-order.pdf")
	before := readFile(t, order)
	if err := os.Chmod(order, 0o400); err != nil {
		t.Fatal(err)
	}
	write(folder, 1, sheets.Order)
	tap(t, w, "Replace")
	if !strings.Contains(shown(w), "That did not work") && !strings.Contains(shown(w), "read-only") {
		t.Errorf("a read-only file is not refused in words:\n%s", shown(w))
	}
	tap(t, w, "Close")
	if readFile(t, order) != before {
		t.Error("what was there is gone")
	}
	write(filepath.Join(folder, "gone"), 0, sheets.Order)
	if !strings.Contains(shown(w), "[Close]") {
		t.Errorf("a folder that is not there is not refused in words:\n%s", shown(w))
	}
}

// Prices with bad rows are taken for the rest, which is told; what is no table or no picture is refused in words and what was chosen
// before stays.
func TestPricesAndLogoOfPaper(t *testing.T) {
	w := onPaper(t)
	room, folder := w.papers.room, t.TempDir()
	file := func(name, text string) string {
		path := filepath.Join(folder, name)
		writeFile(t, path, text, 0o600)
		return path
	}
	room.TakePrices(file("prices.csv", "kind,key,name,price,amount\nwork,Fitting,,100,2\nwork,Talk,,free,1\n"))
	if !strings.Contains(room.Told(), "“free” is no price") {
		t.Errorf("a bad row is not told: %q", room.Told())
	}
	room.Choose(string(sheets.Quote))
	until(t, "the quote", func() bool { _, of := room.Page(); return of > 0 })
	room.TakePrices(filepath.Join(folder, "none.csv"))
	if !strings.Contains(room.Told(), "none.csv") || w.prefers.String("paper-prices") != filepath.Join(folder, "prices.csv") {
		t.Errorf("a file that is not there: %q", room.Told())
	}
	room.TakeLogo(file("logo.png", "no picture"))
	if !strings.Contains(room.Told(), "is no picture") {
		t.Errorf("a logo that is no picture: %q", room.Told())
	}
	var logo bytes.Buffer
	if err := png.Encode(&logo, image.NewRGBA(image.Rect(0, 0, 20, 10))); err != nil {
		t.Fatal(err)
	}
	room.TakeLogo(file("good.png", logo.String()))
	if strings.Contains(room.Told(), "picture") || w.prefers.String("paper-logo") != filepath.Join(folder, "good.png") {
		t.Errorf("a good logo is not taken: %q", room.Told())
	}
}

// workOnPaper is the field of the work, the one of several lines.
func workOnPaper(t *testing.T, w *mainWindow) (work *control.Entry) {
	t.Helper()
	roomtest.EachShown(w.window.Canvas().Overlays().Top(), func(o fyne.CanvasObject) {
		if e, ok := o.(*control.Entry); ok && e.MultiLine {
			work = e
		}
	})
	if work == nil {
		t.Fatal("no field for the work")
	}
	return work
}

// A table to fill in names all that the job takes and is chosen at once; filled in, it makes a quote. The work that was typed for
// a job is there again with that job, and not with another, which can take it over.
func TestPricesAreMadeHereAndWorkStaysWithItsJob(t *testing.T) {
	w := onPaper(t)
	folder := t.TempDir()
	w.prefers.SetString(lastFolder, folder)
	pressesIn(w.window.Canvas().Overlays().Top(), "Make a table to fill in…")[0].OnPressed()
	tap(t, w, "Save")
	path := filepath.Join(folder, "Prices.csv")
	if w.papers == nil || w.prefers.String("paper-prices") != path {
		t.Fatalf("the table is not chosen: %q", w.prefers.String("paper-prices"))
	}
	if table := readFile(t, path); !strings.Contains(table, "Tile for the shower's floor") || strings.Count(table, "\n") < 15 {
		t.Errorf("the table has\n%s", table)
	}
	w.papers.room.Choose(string(sheets.Quote))
	until(t, "the quote", func() bool { _, of := w.papers.room.Page(); return of > 0 })

	typed := func() string { return workOnPaper(t, w).Text }
	work := workOnPaper(t, w)
	work.SetText("Fitting; 2; 380")
	work.OnLeave()
	again := func(name string) {
		t.Helper()
		w.leavePaper()
		w.desk.Do(edit.Of(message.Of("edit.test"), func(j *job.Job) { j.Name = name }))
		until(t, "the job "+name, func() bool { return w.change.Result.Settled.Name == name && !w.change.Preview })
		w.putOnPaper()
	}
	mine := w.desk.Job().Name
	again("Another")
	if typed() != "" {
		t.Errorf("another job has the work %q", typed())
	}
	again(mine)
	if typed() != "Fitting; 2; 380" {
		t.Errorf("the job has the work %q", typed())
	}
	again("Another")
	pressesIn(w.window.Canvas().Overlays().Top(), "As for the job before")[0].OnPressed()
	if typed() != "Fitting; 2; 380" {
		t.Errorf("taken over is %q", typed())
	}
}
