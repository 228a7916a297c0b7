package app

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"
	fynetheme "fyne.io/fyne/v2/theme"
	"underfall/app/theme"
	"underfall/app/words"
	"underfall/assets"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/part"
	"underfall/geometry/unit"
)

// In the narrowest panel every field shows its whole label, and every list the whole name
// of any part, in both languages.
func TestLabelsAndPartsFit(t *testing.T) {
	shelf, err := assets.Parts()
	if err != nil {
		t.Fatal(err)
	}
	for _, tag := range []string{words.British, words.American} {
		w, _ := openWindow(t, Options{})
		w.speak(tag)
		w.desk.Do(edit.Of(message.Of("edit.test"), func(j *job.Job) {
			j.Floor.Kind, j.Base.Height, j.Base.BoardsMM, j.Room.Edge = job.FloorTimber, job.HeightChosen, []float64{20}, job.EdgeRamp
			j.Waste.Exit.Level = job.NotBelow(0)
			for _, l := range job.Lists() {
				l.Add(j)
			}
		}))
		w.showPanels()
		w.inputs.accordion.OpenAll()
		panel := container.NewPadded(w.inputs.accordion)
		if need := panel.MinSize().Width; need > trayWidth {
			t.Errorf("%s: the panel needs %v and has %v", tag, need, float32(trayWidth))
		}
		test.NewTempWindow(t, panel).Resize(fyne.NewSize(trayWidth, panel.MinSize().Height))
		rows := w.inputs.rows
		for len(rows) > 0 {
			r := rows[0]
			rows = rows[1:]
			switch r := r.(type) {
			case *groupRow:
				if r.box.Visible() {
					rows = append(rows, r.rows...)
				}
			case *numberRow:
				need := fyne.MeasureText(r.label.Text, fynetheme.TextSize(), fyne.TextStyle{}).Width + 2*fynetheme.InnerPadding()
				if room := r.label.Size().Width; r.box.Visible() && need > room {
					t.Errorf("%s: “%s” needs %v and has %v", tag, r.label.Text, need, room)
				}
			case *choiceRow:
				if !r.wide || !r.box.Visible() {
					continue
				}
				room := r.sel.Size().Width - fynetheme.IconInlineSize() - fynetheme.InnerPadding() - 3*fynetheme.Padding()
				for p := range shelf.Each {
					name := theme.Say(part.Name(p), unit.Metric)
					if need := fyne.MeasureText(name, fynetheme.TextSize(), fyne.TextStyle{}).Width; need > room {
						t.Errorf("%s: “%s” needs %v and has %v", tag, name, need, room)
					}
				}
				rows = notWide(rows)
			}
		}
	}
}

// notWide are the rows but for lists of parts: one has been looked at for all.
func notWide(rows []row) []row {
	var out []row
	for _, r := range rows {
		if c, ok := r.(*choiceRow); !ok || !c.wide {
			out = append(out, r)
		}
	}
	return out
}
