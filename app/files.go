package app

import (
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"reflect"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/storage"
	"fyne.io/fyne/v2/widget"
	"underfall/app/desk"
	"underfall/app/store"
	"underfall/app/theme"
	"underfall/app/words"
	"underfall/geometry"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/part"
)

// extension is how the names of jobs end.
const extension = ".json"

// american tells whether American is spoken.
func american() bool { return theme.Book().Language() == words.American }

// newJob is the starting job of the country whose language is spoken.
func newJob(shelf part.Shelf) job.Job {
	region := "UK"
	if american() {
		region = "US"
	}
	j := edit.Start(region, shelf)
	j.Name = newName(&j, nil)
	return j
}

// newName is what a job that nobody has named is called: by its shower, with a number where another that is
// listed is called so.
func newName(j *job.Job, listed []store.Listed) string {
	first := namedBy(j)
	name := first
	for n := 2; slices.ContainsFunc(listed, func(l store.Listed) bool { return l.Name == name }); n++ {
		name = theme.Word("job.new-again", message.Name("name", first), message.No("n", n))
	}
	return name
}

// namedBy is what a job is called by its shower.
func namedBy(j *job.Job) string {
	return theme.Say(message.Of("job.new-named", message.In("shower", geometry.ShowerFacts(j))), j.Units)
}

// renamed is what a job is called after a change: one that is called by its shower goes on to be, others keep their names.
func renamed(before, after job.Job) string {
	if was := namedBy(&before); strings.HasPrefix(after.Name, was) {
		return namedBy(&after) + strings.TrimPrefix(after.Name, was)
	}
	return after.Name
}

// first is what the window opens with: the first demo; where people build in inches, which
// no demo is in, a new job.
func (w *mainWindow) first() job.Job {
	if american() {
		return newJob(w.parts)
	}
	return w.demos[0].Job
}

// begin puts a job on the desk that has no file yet.
func (w *mainWindow) begin(j job.Job) {
	w.unlessUnsaved(func() {
		if err := w.desk.Replace(j); err != nil {
			w.fail(err)
			return
		}
		w.resetView()
		w.start.leave()
		w.keep() // which lets go of work given up
	})
}

// unlessUnsaved does something that leaves the job behind, asking before when it
// is not saved.
func (w *mainWindow) unlessUnsaved(f func()) {
	w.window.Canvas().Unfocus() // what is being typed belongs to the job
	if !w.desk.Unsaved() {
		f()
		return
	}
	w.ask(theme.Word("app.unsaved-work"), theme.Word("app.unsaved-changes", message.Name("job", store.Plain(w.desk.Job().Name))),
		reply{theme.Word("app.save"), widget.HighImportance, func() { w.saveThen(f) }},
		reply{theme.Word("app.dont-save"), widget.MediumImportance, f},
		reply{theme.Word("app.cancel"), widget.MediumImportance, func() {}})
}

// answerKey gives a key to the question or dialog over the window: Enter takes
// the first answer, Escape the last, and dismisses a dialog. It tells whether there was one.
func (w *mainWindow) answerKey(k fyne.KeyName) bool {
	enter, escape := k == fyne.KeyReturn || k == fyne.KeyEnter, k == fyne.KeyEscape
	switch {
	case w.question != nil && enter && w.answers[0].importance != widget.DangerImportance:
		w.give(w.answers[0])
	case w.question != nil && escape:
		w.give(w.answers[len(w.answers)-1])
	case w.question != nil:
		return true
	case w.over != nil && escape:
		w.over.Dismiss()
	case w.over != nil:
		return true
	case w.saving != nil && escape:
		w.saving.hide()
	default:
		return w.saving != nil
	}
	return true
}

// give closes the question with an answer.
func (w *mainWindow) give(a reply) {
	d := w.question
	w.question, w.answers = nil, nil
	d.Hide()
	a.do()
}

// reply is one button of a question.
type reply struct {
	label      string
	importance widget.Importance
	do         func()
}

// ask puts a question over the window; a question that stands there goes.
func (w *mainWindow) ask(title, question string, answers ...reply) {
	if w.question != nil {
		w.question.Hide()
	}
	label := widget.NewLabel(question)
	label.Wrapping = fyne.TextWrapWord
	d := dialog.NewCustomWithoutButtons(title, label, w.window)
	var buttons []fyne.CanvasObject
	for _, c := range answers {
		b := widget.NewButton(c.label, w.guard.Wrap(partWindow, func() { w.give(c) }))
		b.Importance = c.importance
		buttons = append(buttons, b)
	}
	d.SetButtons(buttons)
	w.question, w.answers = d, answers
	const wide = 460
	d.Resize(fyne.NewSize(wide, d.MinSize().Height))
	d.Show()
	d.Resize(fyne.NewSize(wide, d.MinSize().Height)) // the text has its width now, and tells how high it is
}

// fail says over the window what went wrong.
func (w *mainWindow) fail(err error) {
	w.ask(theme.Word("app.that-did-not-work"), theme.Sentence(message.OfError(err), w.desk.Job().Units),
		reply{theme.Word("app.close"), widget.HighImportance, func() {}})
}

// endings are the files that are offered for opening, by how their names end, in small letters: a pipe that only
// looks like one would stop the program when the dialog opens it.
type endings []string

// Matches tells whether a file is offered.
func (e endings) Matches(u fyne.URI) bool {
	info, err := os.Stat(u.Path())
	return err == nil && info.Mode().IsRegular() && slices.Contains(e, strings.ToLower(u.Extension()))
}

func (w *mainWindow) open() {
	w.unlessUnsaved(func() { w.chooseFile(endings{extension}, w.openFile) })
}

// chooseFile asks for a file that is there, of those that a filter lets through, and goes on with its path.
func (w *mainWindow) chooseFile(filter storage.FileFilter, chosen func(path string)) {
	d := dialog.NewFileOpen(func(f fyne.URIReadCloser, err error) {
		if err != nil {
			w.fail(fmt.Errorf("choosing a file to open: %w", err))
			return
		}
		if f == nil {
			return
		}
		path := f.URI().Path()
		_ = f.Close() // it was only chosen
		chosen(path)
	}, w.window)
	d.SetFilter(filter)
	w.chooseFrom(d, w.startFolder())
}

// chooseFrom shows a file dialog that begins in a folder, or where it likes when that
// is gone.
func (w *mainWindow) chooseFrom(d *dialog.FileDialog, folder string) {
	if l, err := storage.ListerForURI(storage.NewFileURI(folder)); err == nil {
		d.SetLocation(l)
	}
	w.showOver(d)
}

// showOver shows a dialog that Escape dismisses before anything that is under it.
func (w *mainWindow) showOver(d dialog.Dialog) {
	w.over = d
	d.SetOnClosed(func() {
		if w.over == d {
			w.over = nil
		}
	})
	d.Show()
}

func (w *mainWindow) openFile(path string) {
	if err := w.desk.Open(path); err != nil {
		w.fail(err)
		return
	}
	// The desk tells of the new job on this goroutine, so not before this.
	w.resetView()
	w.start.leave()
	w.keep() // which lets go of work given up
	w.rememberFolder(path)
	w.listJob(path)
	w.log("opened %s", path)
}

func (w *mainWindow) save() { w.saveThen(func() {}) }

// saveThen saves the job, asking where when it has no file or is only looked at, and then goes on.
func (w *mainWindow) saveThen(then func()) {
	if file := w.desk.File(); file != "" && !w.desk.OnlyLooked() {
		w.saveTo(file, then)
		return
	}
	w.saveAsThen(then)
}

func (w *mainWindow) saveAs() { w.saveAsThen(func() {}) }

func (w *mainWindow) saveAsThen(then func()) {
	name := store.SafeName(w.desk.Job().Name, theme.Word("app.shower"))
	if file := w.desk.File(); file != "" {
		name = filepath.Base(file)
	}
	w.askWhere(saveDialog{title: theme.Word("app.save-the-job"), ending: extension, write: func(path string, done func()) {
		w.saveTo(path, func() { done(); then() })
	}}, name)
}

// saveTo saves the job to a file and then goes on. On an error it says so, and
// the job stays unsaved.
func (w *mainWindow) saveTo(path string, then func()) {
	write := w.desk.SaveOver // whoever chose another file was asked about it
	if path == w.desk.File() {
		write = w.desk.Save
	}
	err := write(path)
	if errors.Is(err, desk.ErrChanged) {
		w.askChanged(path, then)
		return
	}
	if inTheWay(err) {
		w.askOtherName(err, then)
		return
	}
	w.saved(path, err, then)
}

// askOtherName says why a file cannot be written over, and offers another name.
func (w *mainWindow) askOtherName(why error, then func()) {
	w.log("not saved: %v", why)
	w.ask(theme.Word("app.that-did-not-work"), theme.Sentence(message.OfError(why), w.desk.Job().Units),
		reply{theme.Word("app.save-under-another-name"), widget.HighImportance, func() { w.saveAsThen(then) }},
		reply{theme.Word("app.cancel"), widget.MediumImportance, func() {}})
}

// askChanged asks what to do with a file that another program changed.
func (w *mainWindow) askChanged(path string, then func()) {
	w.ask(theme.Word("app.the-file-was-changed"), theme.Word("app.file-changed-by-other", message.Name("file", store.Plain(filepath.Base(path)))),
		reply{theme.Word("app.save-under-another-name"), widget.HighImportance, func() { w.saveAsThen(then) }},
		reply{theme.Word("app.replace-it"), widget.DangerImportance, func() { w.saved(path, w.desk.SaveOver(path), then) }},
		reply{theme.Word("app.cancel"), widget.MediumImportance, func() {}})
}

// saved tells how saving went.
func (w *mainWindow) saved(path string, err error, then func()) {
	if err != nil {
		w.log("not saved: %v", err)
		w.fail(err)
		return
	}
	w.rememberFolder(path)
	w.listJob(path)
	w.log("saved %s", path)
	file := w.desk.File()
	// After the desk has told of it, which says something else.
	w.sight.Do(func() {
		w.lastSave = nil
		if c := w.change; c.File == file { // else another job came right after
			w.lastSave = &c
		}
		w.saySaved(file)
	})
	then()
}

// saySaved says that the job is saved, and what it does not hold.
func (w *mainWindow) saySaved(file string) {
	said := theme.Word("app.saved", message.Name("file", store.Plain(filepath.Base(file))))
	pending := w.tray.NotTaken()
	if len(pending) > 0 {
		said += ". " + theme.Word("app.typed-not-taken", message.Name("what", strings.Join(pending, "; ")))
	}
	w.say(said, len(pending) > 0)
}

// stillSaved tells whether nothing was done to the job since it was saved: what
// comes then is the result of an edit before, worked out late.
func (w *mainWindow) stillSaved(c desk.Change) bool {
	s := w.lastSave
	return s != nil && !c.Preview && !c.Unsaved && c.File == s.File && c.Opened == s.Opened && c.Edits == s.Edits &&
		reflect.DeepEqual(c.Problems, s.Problems)
}

// title is the window's: the file, the job, and a dot while it is not saved.
func title(c desk.Change) string {
	s := store.Plain(c.Result.Settled.Name) + " – Underfall"
	if c.File != "" {
		s = store.Plain(filepath.Base(c.File)) + " – " + s
	}
	if c.Unsaved {
		s = "• " + s
	}
	return s
}

// lastFolder is the preference that holds the folder last used.
const lastFolder = "folder"

// rememberFolder makes the folder of a file the one that the next is offered in.
func (w *mainWindow) rememberFolder(path string) {
	if path, err := filepath.Abs(path); err == nil {
		w.prefers.SetString(lastFolder, filepath.Dir(path))
	}
}

// startFolder is where files are looked for and saved first: the job's own
// folder, the last used, the user's documents, or whatever there is.
func (w *mainWindow) startFolder() string {
	home, _ := os.UserHomeDir()
	candidates := []string{w.prefers.String(lastFolder)}
	if file := w.desk.File(); file != "" {
		candidates = append([]string{filepath.Dir(file)}, candidates...)
	}
	for _, folder := range candidates {
		if isFolder(folder) {
			return folder
		}
	}
	// The desktop knows what the user's documents are called.
	if out, err := exec.Command("xdg-user-dir", "DOCUMENTS").Output(); err == nil {
		if folder := strings.TrimSpace(string(out)); isFolder(folder) {
			return folder
		}
	}
	if isFolder(home) {
		return home
	}
	return os.TempDir()
}

func isFolder(path string) bool {
	info, err := os.Stat(path)
	return err == nil && filepath.IsAbs(path) && info.IsDir()
}

func (w *mainWindow) close() {
	w.unlessUnsaved(func() {
		w.unlessDrawing(func() {
			w.end()
			if err := w.desk.Release(); err != nil {
				w.log("%v", err)
			}
			w.window.Close()
		})
	})
}

// end ends all that goes on by itself. It waits for what must not go on: the
// drawing, and the keeping of work that may be meant to be left behind.
func (w *mainWindow) end() {
	w.ending.Do(func() {
		close(w.sight.Closed)
		w.start.end()
		for _, f := range w.followers {
			f.stop()
		}
		w.runs.Stop()
		w.trial.Stop()
		if w.pace.wait != nil {
			w.pace.wait()
		}
		w.view.Close()
		<-w.keepEnded
	})
}
