package app

import (
	"bytes"
	"context"
	"errors"
	"image/jpeg"
	"io/fs"
	"maps"
	"net/url"
	"path/filepath"
	"slices"
	"time"

	"fyne.io/fyne/v2/widget"
	"underfall/app/start"
	"underfall/app/store"
	"underfall/app/theme"
	"underfall/app/words"
	"underfall/assets"
	"underfall/geometry"
	"underfall/geometry/job"
	"underfall/geometry/message"
	standing "underfall/geometry/progress"
	"underfall/geometry/rule"
	"underfall/geometry/unit"
)

// latestRows is how many jobs of the list are worked out and shown unless all are asked for: as many as
// one looks through.
const latestRows = 24

// listJob puts the job on the desk on the list of jobs.
func (w *mainWindow) listJob(path string) {
	if w.folder == "" {
		return
	}
	if err := store.List(w.folder, store.Listed{Path: path, Name: w.desk.Job().Name, At: time.Now()}); err != nil {
		w.log("%v", err)
	}
}

// list reads the list of jobs and works its rows out off the window's goroutine, one after the other: the
// latest at once, the rest when all are asked for.
func (s *startPages) list() {
	w := s.window
	s.listing()
	ctx, cancel := context.WithCancel(context.Background())
	s.listing = cancel
	all := make(chan struct{}, 1)
	s.all = all
	book, examples := theme.Book(), s.heads == nil
	w.guard.Go(partStart, func() {
		rows := []start.Job{}
		if w.folder != "" {
			listed, err := store.Jobs(w.folder)
			if err != nil {
				w.sight.Do(func() { w.log("%v", err) })
			}
			for _, l := range listed {
				rows = append(rows, start.Job{Path: l.Path, Name: store.Plain(l.Name), At: l.At, When: whenOf(l.At, time.Now()), Units: unit.Metric})
			}
		}
		show := func() {
			shown := slices.Clone(rows)
			w.sight.Do(func() {
				if ctx.Err() == nil && s.front != nil {
					s.jobs = shown
					s.front.SetJobs(shown)
				}
			})
		}
		fill := func(from, to int) {
			for i := from; i < to; i++ {
				if ctx.Err() != nil {
					return
				}
				s.fill(&rows[i], func(m message.Message, u unit.System) string { return book.In(u).Say(m) })
				if i%latestRows == latestRows-1 {
					show()
				}
			}
			show()
		}
		show()
		latest := min(len(rows), latestRows)
		fill(0, latest)
		if examples {
			s.fillExamples(ctx)
		}
		select {
		case <-ctx.Done():
		case <-all:
			fill(latest, len(rows))
		}
	})
}

// listAll has the rest of the rows worked out.
func (s *startPages) listAll() {
	select {
	case s.all <- struct{}{}:
	default: // asked already
	}
}

// fill reads a row's job and works out how it stands, or says why that cannot be.
func (s *startPages) fill(row *start.Job, say func(message.Message, unit.System) string) {
	data, _, err := store.Read(row.Path, store.LargestJob)
	if errors.Is(err, fs.ErrNotExist) {
		row.Gone = true
		return
	}
	var j job.Job
	switch {
	case err != nil:
	case job.IsNewer(data):
		// It may be opened to be looked at.
		j, _, err = job.ParseNewer(data)
		row.Newer = err == nil
	default:
		j, err = job.Parse(data)
	}
	if err == nil {
		if _, known := s.window.packs[j.Region]; !known || j.Region == rule.CommonRegion {
			err = message.Fail("start.no-rules", message.Name("country", j.Region))
		}
	}
	if err != nil {
		row.Trouble = words.Capital(say(message.OfError(err), unit.Metric))
		return
	}
	row.Name, row.Notes, row.Units = store.Plain(j.Name), j.Notes, j.Units
	r := geometry.Evaluate(j, s.window.packs[j.Region])
	sum := standing.Of(&r, r.Answer(nil))
	row.Summary = &sum
	row.Build, row.HasBuild = start.BuildOf(&r)
}

// exampleJob is an example as it is opened: in the units that new jobs are in.
func (s *startPages) exampleJob(d assets.Demo) job.Job {
	j := d.Job.Clone()
	j.Units = s.blank().Units
	return j
}

// examples are the jobs that come with Underfall.
func (s *startPages) examples() []start.Example {
	var out []start.Example
	units := s.blank().Units
	for _, d := range s.window.demos {
		e := start.Example{Name: d.Job.Name, Plan: standing.PlanOf(&d.Job)}
		if head, ok := s.heads[d.File]; ok {
			e.About = theme.Say(head, units)
		}
		if img, err := jpeg.Decode(bytes.NewReader(d.Picture())); err == nil {
			e.Picture = img
		}
		out = append(out, e)
	}
	return out
}

// fillExamples works out how the examples stand.
func (s *startPages) fillExamples(ctx context.Context) {
	w := s.window
	heads := map[string]message.Message{}
	for _, d := range w.demos {
		if ctx.Err() != nil {
			return
		}
		r := geometry.Evaluate(d.Job, w.packs[d.Job.Region])
		heads[d.File] = standing.Of(&r, r.Answer(nil)).Headline
	}
	w.sight.Do(func() {
		s.heads = heads
		if s.front != nil {
			s.front.SetExamples(s.examples())
		}
	})
}

// whenOf says when a job was looked at, as one would say it at another time.
func whenOf(at, now time.Time) string {
	at, now = at.Local(), now.Local()
	day := func(t time.Time) time.Time { return time.Date(t.Year(), t.Month(), t.Day(), 0, 0, 0, 0, t.Location()) }
	const week = 7
	switch days := int(day(now).Sub(day(at)).Hours()/24 + 0.5); {
	case days == 0:
		return theme.Word("start.today", message.Name("time", at.Format("15:04")))
	case days == 1:
		return theme.Word("start.yesterday")
	case days > 1 && days < week:
		return theme.Word([week]message.ID{"start.sunday", "start.monday", "start.tuesday", "start.wednesday", "start.thursday",
			"start.friday", "start.saturday"}[at.Weekday()])
	}
	month := message.In("month", message.Of([12]message.ID{"start.january", "start.february", "start.march", "start.april", "start.may",
		"start.june", "start.july", "start.august", "start.september", "start.october", "start.november", "start.december"}[at.Month()-1]))
	if at.Year() == now.Year() {
		return theme.Word("start.day-of-month", message.No("day", at.Day()), month)
	}
	return theme.Word("start.day-of-year", message.No("day", at.Day()), month, message.Name("year", at.Format("2006")))
}

// openJob opens a job of the list.
func (s *startPages) openJob(path string) {
	s.window.unlessUnsaved(func() { s.window.openFile(path) })
}

// openFolder shows the folder of a listed job in what the computer has for that.
func (s *startPages) openFolder(path string) {
	folder := url.URL{Scheme: "file", Path: filepath.ToSlash(filepath.Dir(path))}
	if err := s.window.app.OpenURL(&folder); err != nil {
		s.window.fail(message.Wrap(err, "start.no-folder-shown", message.Name("folder", store.Plain(filepath.Dir(path)))))
	}
}

// copyOf puts a copy of a listed job on the desk, with no file of its own.
func (s *startPages) copyOf(path string) {
	data, _, err := store.Read(path, store.LargestJob)
	var j job.Job
	if err == nil {
		j, err = job.Parse(data)
	}
	if err != nil {
		s.window.fail(message.Wrap(err, "desk.opening", message.Name("file", store.Plain(filepath.Base(path)))))
		return
	}
	s.window.begin(j)
}

// remove takes a job off the list once that was asked; its file stays.
func (s *startPages) remove(path string) {
	w := s.window
	w.ask(theme.Word("start.row-remove"), theme.Word("start.remove-asked", message.Name("file", store.Plain(path))),
		reply{theme.Word("start.row-remove"), widget.HighImportance, func() {
			if err := store.Unlist(w.folder, path); err != nil {
				w.fail(err)
				return
			}
			s.jobs = slices.DeleteFunc(s.jobs, func(j start.Job) bool { return j.Path == path })
			s.list()
		}}, reply{theme.Word("app.cancel"), widget.MediumImportance, func() {}})
}

// seek looks for a job whose file is gone.
func (s *startPages) seek(path string) {
	w := s.window
	w.chooseFile(endings{extension}, func(found string) {
		if err := store.Relist(w.folder, path, store.Listed{Path: found, Name: filepath.Base(found), At: time.Now()}); err != nil {
			w.log("%v", err)
		}
		s.openJob(found)
	})
}

// take takes work that was found off those offered.
func (s *startPages) take(i int) *store.Found {
	f := s.found[i]
	s.found = slices.Delete(slices.Clone(s.found), i, i+1)
	return f
}

// lookAt shows unsaved work on the desk as a copy: it stays kept.
func (s *startPages) lookAt(i int) {
	j, err := job.Parse(s.found[i].Job)
	if err != nil {
		s.window.fail(err)
		return
	}
	s.window.begin(j)
}

// bringBack puts unsaved work on the desk as it was.
func (s *startPages) bringBack(i int) {
	w := s.window
	w.unlessUnsaved(func() {
		if err := w.desk.BringBack(s.found[i]); err != nil {
			w.fail(err)
			return
		}
		w.log("brought back %q", s.take(i).Name)
		w.resetView()
		s.leave()
	})
}

// setAside moves unsaved work out of the way, and says where to.
func (s *startPages) setAside(i int) {
	w := s.window
	f := s.found[i]
	path, err := f.SetAside(time.Now())
	if path != "" {
		s.take(i)
		w.log("set aside %s", path)
		s.open()
		moved := theme.Word("kept.moved", message.Name("job", store.Plain(f.Name)), message.Name("file", store.Plain(path)))
		w.ask(theme.Word("start.leave-it"), moved,
			reply{theme.Word("app.close"), widget.HighImportance, func() {}})
	}
	if err != nil {
		w.fail(err)
	}
}

// end leaves what is still offered for the next start.
func (s *startPages) end() {
	s.listing()
	s.answering()
	for _, f := range s.found {
		if err := f.Later(); err != nil {
			s.window.log("leaving kept work for later: %v", err)
		}
	}
	s.found = nil
}

// regionsIn are the countries with rules, by code.
func regionsIn(packs map[string]rule.Pack) []string {
	return slices.DeleteFunc(slices.Sorted(maps.Keys(packs)), func(code string) bool { return code == rule.CommonRegion })
}
