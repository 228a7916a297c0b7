package app

import (
	"path/filepath"
	"strings"
	"testing"
	"unicode"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"
	"underfall/app/control"
	"underfall/app/theme"
	"underfall/app/words"
	"underfall/assets"
	"underfall/geometry/buildup"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/section"
)

// The language changes under the window as it stands, job, groups and tabs with it.
func TestSpeak(t *testing.T) {
	w, _ := openWindow(t, Options{File: "../assets/demos/6-cannot-be-built.json"})
	until(t, "the job", func() bool { return !w.replaced })
	w.tray.Open(job.StationFinish)
	w.sides.SelectIndex(0)
	name := w.desk.Job().Name
	w.speak(words.MadeUp)
	if got := w.sides.title(); !strings.HasPrefix(got, "[Levels") || w.tray.Station() != job.StationFinish {
		t.Errorf("the open list is “%s”, station %v", got, w.tray.Station())
	}
	if w.desk.Job().Name != name {
		t.Errorf("the job is “%s”", w.desk.Job().Name)
	}
	w.speak(words.British)
	if got := w.sides.title(); got != "Levels" {
		t.Errorf("back again the open list is “%s”", got)
	}
}

// textsOf are all texts that an object shows.
func textsOf(o fyne.CanvasObject) (out []string) {
	each(o, func(o fyne.CanvasObject) {
		switch o := o.(type) {
		case *widget.Label:
			out = append(out, o.Text)
		case *control.Text:
			out = append(out, o.Text)
		case *control.Press:
			out = append(out, o.Text)
		case *canvas.Text:
			out = append(out, o.Text)
		case *widget.Button:
			out = append(out, o.Text)
		case *control.ToolButton:
			out = append(out, o.Text)
		case *widget.Check:
			out = append(out, o.Text)
		case *widget.Select:
			out = append(append(out, o.Options...), o.PlaceHolder)
		case *widget.RadioGroup:
			out = append(out, o.Options...)
		case *widget.RichText:
			out = append(out, o.String())
		}
	})
	return out
}

func wordless(text string) bool { return strings.IndexFunc(text, unicode.IsLetter) < 0 }

// own are words that stay as they are in every language: units, and what people or
// documents are called.
func own(w *mainWindow) *strings.Replacer {
	j := w.desk.Job()
	keep := []string{j.Name, j.Notes, j.Region, filepath.Base(w.desk.File()), "Underfall", "English (UK)", "English (US)",
		"mm/m", "mm", "l/min", "m/s", "°", "min", "in/ft", "gpm", "ft/s", "(in)", "in²", "ft²"}
	for _, d := range w.demos {
		keep = append(keep, d.Job.Name)
	}
	for i := range j.Room.Outline {
		keep = append(keep, j.Room.Corner(i).String())
	}
	var pairs []string
	for _, k := range keep {
		if k != "" {
			pairs = append(pairs, k, "")
		}
	}
	return strings.NewReplacer(pairs...)
}

// In the made-up language everything the window shows stands in brackets: nothing is
// said that no catalogue has words for.
func TestEverythingIsTranslated(t *testing.T) {
	for i, d := range demosOf(t) {
		if i > 0 && testing.Short() {
			break // what runs beside the window is the same for each
		}
		t.Run(d, func(t *testing.T) {
			w, log := openWindow(t, Options{File: "../assets/demos/" + d})
			until(t, "the job", func() bool { return !w.replaced })
			w.speak(words.MadeUp)
			until(t, "the chances", func() bool { return w.answer.Answer().Counted })
			keep, told := own(w), map[string]bool{}
			look := func(where string, o fyne.CanvasObject) {
				for _, s := range textsOf(o) {
					if rest := keep.Replace(words.Outside(s)); !wordless(rest) && !told[s] {
						told[s] = true
						t.Errorf("%s: “%s”", where, s)
					}
				}
			}
			for i, list := range w.sides.lists {
				w.sides.SelectIndex(i)
				look(w.sides.title(), list.object)
			}
			for _, s := range append(job.Stations(), job.HowExact) {
				w.tray.Row(job.At(s)[0].Key) // with its less used
				look(string(s), w.tray.Object())
			}
			look("window", w.main)
			r := w.change.Result
			for name, d := range map[string]section.Drawing{
				"section":       section.Of(r, section.ThroughDrain(r), buildup.StageTile),
				"along the run": section.Of(r, section.AlongRun(r), buildup.StageTile),
				"plan":          section.PlanOf(r), "long section": section.LongOf(r),
			} {
				for _, m := range messagesOf(d) {
					if s := theme.Say(m, r.Settled.Units); !wordless(keep.Replace(words.Outside(s))) {
						t.Errorf("%s: “%s”", name, s)
					}
				}
			}
			w.openShowroom()
			look("showroom", w.showroom.Object())
			w.closeShowroom()
			if strings.Contains(log.String(), "no words for") {
				t.Error(log.String())
			}
		})
	}
}

// messagesOf is all that is written in a drawing.
func messagesOf(d section.Drawing) []message.Message {
	out := []message.Message{d.Fault}
	for _, a := range d.Areas {
		out = append(out, a.Name)
	}
	for _, x := range d.Dimensions {
		out = append(out, x.Text)
	}
	for _, m := range d.Marks {
		out = append(out, m.Message())
	}
	return out
}

func demosOf(t *testing.T) (names []string) {
	t.Helper()
	demos, err := assets.Demos()
	if err != nil {
		t.Fatal(err)
	}
	for _, d := range demos {
		names = append(names, d.File)
	}
	return names
}
