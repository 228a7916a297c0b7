package app

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	fynetheme "fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
	"underfall/app/control"
	"underfall/app/theme"
	"underfall/geometry/job"
	"underfall/geometry/message"
)

// topBar has the job's name, whether it is saved, and what is not about one drawing.
func (w *mainWindow) topBar() fyne.CanvasObject {
	w.jobLine = newJobLine(asksOf(w.desk, w.parts), w.keys)
	w.undo, w.redo = w.undoAndRedo()
	show := w.tool("tool.showroom", fynetheme.ViewFullScreenIcon(), "tool.showroom.hint", w.openShowroom)
	save := w.tool("tool.save", fynetheme.DocumentSaveIcon(), "tool.save.hint", w.save)
	paper := w.tool("tool.paper", fynetheme.DocumentPrintIcon(), "tool.paper.hint", w.putOnPaper)
	more := w.tool("", fynetheme.MenuIcon(), "tool.more.hint", nil)
	more.OnTapped = w.guard.Wrap(partWindow, func() {
		at := fyne.CurrentApp().Driver().AbsolutePositionForObject(more)
		widget.ShowPopUpMenuAtPosition(w.moreMenu(), w.window.Canvas(), at.AddXY(0, more.Size().Height+4))
	})
	jobs := w.tool("tool.jobs", fynetheme.HomeIcon(), "tool.jobs.hint", w.start.open)
	w.looking = w.newLookLine()
	right := container.NewHBox(w.undo, w.redo, save, paper, show, more)
	w.jobLine.line = container.New(nameFirst{w.jobLine.needs}, w.jobLine.object(), w.jobLine.saved, w.looking.box)
	bar := container.NewBorder(nil, nil, container.NewPadded(jobs), container.NewPadded(right), w.jobLine.line)
	control.GroupOf(bar)
	return bar
}

// moreMenu has what is seldom wanted: files, the job's own statements, how the program looks.
func (w *mainWindow) moreMenu() *fyne.Menu {
	item := func(label message.ID, f func()) *fyne.MenuItem {
		return fyne.NewMenuItem(theme.Word(label), w.guard.Wrap(partWindow, f))
	}
	examples := item("app.examples", nil)
	examples.ChildMenu = fyne.NewMenu("")
	for _, d := range w.demos {
		examples.ChildMenu.Items = append(examples.ChildMenu.Items,
			fyne.NewMenuItem(d.Job.Name, w.guard.Wrap(partWindow, func() { w.begin(w.start.exampleJob(d)) })))
	}
	return fyne.NewMenu("",
		item("app.new-job", w.start.newJob), examples,
		item("tool.open", w.open), item("tool.save", w.save), item("app.save-as", w.saveAs), fyne.NewMenuItemSeparator(),
		item("app.job", func() { w.sides.open("app.job") }), item(job.HowExact.ID(), func() {
			w.tray.Open(job.HowExact)
			w.sides.openFields()
		}),
		item("tool.picture", w.takePicture), item("start.parts", w.openParts), fyne.NewMenuItemSeparator(),
		w.machineItem(), item("tool.about", w.openAbout), fyne.NewMenuItemSeparator(), item("app.quit", w.close))
}

// languageItem offers the languages.
func (w *mainWindow) languageItem() *fyne.MenuItem {
	tags, names := languages()
	all := fyne.NewMenuItem(theme.Word("app.language"), nil)
	all.ChildMenu = fyne.NewMenu("")
	for i, tag := range tags {
		one := fyne.NewMenuItem(names[i], w.guard.Wrap(partWindow, func() { w.speak(tag) }))
		one.Checked = tag == theme.Book().Language()
		all.ChildMenu.Items = append(all.ChildMenu.Items, one)
	}
	return all
}
