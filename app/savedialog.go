package app

import (
	"os"
	"path/filepath"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	fynetheme "fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
	"underfall/app/control"
	"underfall/app/store"
	"underfall/app/theme"
	"underfall/geometry/message"
)

// saveDialog asks where something is to be saved. It opens and changes no file:
// what is there already is replaced only by write, and only when the person said
// so.
type saveDialog struct {
	title  string
	ending string // of the name, added when it was not typed
	// files are those that would be written for a path; nil for the path alone.
	files func(path string) []string
	// write saves; done closes the dialog, which stays for another try otherwise.
	write func(path string, done func())

	folder  string
	name    *control.Entry
	where   *widget.Label
	problem *widget.Label
	save    *widget.Button
	cancel  *widget.Button
	window  *mainWindow
	dialog  *dialog.CustomDialog
}

// askWhere shows a dialog with a name suggested; one that stands there goes.
func (w *mainWindow) askWhere(d saveDialog, name string) {
	if w.saving != nil {
		w.saving.hide()
	}
	w.saving = &d
	d.window = w
	if d.files == nil {
		d.files = func(path string) []string { return []string{path} }
	}
	d.name, d.where, d.problem = control.NewEntry(control.NewKeys()), widget.NewLabel(""), widget.NewLabel("")
	d.where.Truncation = fyne.TextTruncateEllipsis
	d.problem.Wrapping, d.problem.Importance = fyne.TextWrapWord, widget.DangerImportance
	d.problem.Hide()
	d.name.SetText(store.WithEnding(name, d.ending))
	d.name.OnChanged = func(string) { d.problem.Hide() }
	d.name.OnSubmitted = func(string) { d.save.OnTapped() }
	d.name.OnEscape = d.hide
	d.goTo(w.startFolder())
	choose := widget.NewButtonWithIcon(theme.Word("app.choose-a-folder"), fynetheme.FolderOpenIcon(), w.guard.Wrap(partWindow, d.chooseFolder))
	form := container.NewVBox(
		widget.NewLabel(theme.Word("app.name")), d.name,
		widget.NewLabel(theme.Word("app.folder")), container.NewBorder(nil, nil, nil, choose, d.where),
		d.problem)
	d.save = widget.NewButtonWithIcon(theme.Word("app.save"), fynetheme.DocumentSaveIcon(), w.guard.Wrap(partWindow, d.press))
	d.cancel = widget.NewButton(theme.Word("app.cancel"), d.hide)
	d.save.Importance = widget.HighImportance
	d.dialog = dialog.NewCustomWithoutButtons(d.title, form, w.window)
	d.dialog.SetButtons([]fyne.CanvasObject{d.cancel, d.save})
	d.dialog.Resize(fyne.NewSize(560, d.dialog.MinSize().Height))
	d.dialog.Show()
	w.window.Canvas().Focus(d.name)
	d.name.TypedShortcut(&fyne.ShortcutSelectAll{}) // typing replaces the suggestion
}

func (d *saveDialog) hide() {
	d.dialog.Hide()
	if d.window.saving == d {
		d.window.saving = nil
	}
}

func (d *saveDialog) goTo(folder string) {
	d.folder = folder
	d.where.SetText(store.Plain(folder))
}

func (d *saveDialog) chooseFolder() {
	choose := dialog.NewFolderOpen(func(u fyne.ListableURI, err error) {
		if err != nil {
			d.complain(theme.Word("app.folder-unusable", theme.Because("reason", err)))
			return
		}
		if u != nil {
			d.goTo(u.Path())
		}
	}, d.window.window)
	d.window.chooseFrom(choose, d.folder)
}

func (d *saveDialog) complain(problem string) {
	d.problem.SetText(problem)
	d.problem.Show()
}

// press saves under the name typed, asking before anything is replaced.
func (d *saveDialog) press() {
	name, problem := fileName(d.name.Text, d.ending)
	if problem != "" {
		d.complain(problem)
		return
	}
	path := filepath.Join(d.folder, name)
	files := d.files(path)
	for _, file := range files {
		if isFolder(file) {
			d.complain(theme.Word("app.name-is-a-folder", message.Name("file", store.Plain(filepath.Base(file)))))
			return
		}
	}
	existing := countThere(files)
	if existing == 0 {
		d.write(path, d.hide)
		return
	}
	d.window.ask(theme.Word("app.replace"), replaceQuestion(name, existing, len(files)),
		reply{theme.Word("app.replace-2"), widget.DangerImportance, func() { d.write(path, d.hide) }},
		reply{theme.Word("app.cancel"), widget.MediumImportance, func() {}})
}

// countThere is how many of some files are there already.
func countThere(files []string) (there int) {
	for _, file := range files {
		if _, err := os.Lstat(file); err == nil {
			there++
		}
	}
	return there
}

// replaceQuestion asks whether files that are there may go, so many of all that are written; of one by its name.
func replaceQuestion(name string, there, all int) string {
	if all > 1 {
		return theme.Word("app.replace-files", message.N("there", there), message.No("all", all))
	}
	return theme.Word("app.replace-file", message.Name("file", store.Plain(name)))
}

// fileName makes a whole name of what was typed, or says what is wrong with it.
func fileName(typed, ending string) (name, problem string) {
	name = strings.TrimSpace(typed)
	switch {
	case name == "" || strings.EqualFold(name, ending):
		return "", theme.Word("app.type-a-name")
	case strings.ContainsAny(name, "/"+string(os.PathSeparator)):
		return "", theme.Word("app.a-name-cannot-have-a-slash")
	case strings.HasPrefix(name, "."):
		return "", theme.Word("app.a-name-that-begins-with-a")
	case name != store.Plain(name):
		return "", theme.Word("app.there-are-characters-in-this-name")
	}
	const longest = 240 // bytes; leaves room for the numbers of pictures
	if name = store.WithEnding(name, ending); len(name) > longest {
		return "", theme.Word("app.the-name-is-too-long-choose")
	}
	return name, ""
}
