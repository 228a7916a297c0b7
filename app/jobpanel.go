package app

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"
	"underfall/app/desk"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/rule"
	"underfall/geometry/unit"
)

// jobPanel is the job's name, notes, region, units and the rules it is held
// against.
type jobPanel struct {
	rows    []row
	grounds *widget.Label
	box     *fyne.Container
}

func newJobPanel(d *desk.Desk, keys *windowKeys) *jobPanel {
	p := &jobPanel{grounds: widget.NewLabel("")}
	p.grounds.Wrapping = fyne.TextWrapWord
	notes := newLinesEntry(keys, 3)
	notes.Wrapping = fyne.TextWrapWord
	var codes []string
	for code := range d.Regions() {
		if code != rule.CommonRegion {
			codes = append(codes, code)
		}
	}
	slices.Sort(codes)
	var regions []option
	for _, c := range codes {
		regions = append(regions, option{c, message.Of(d.Regions()[c].Name())})
	}
	p.rows = []row{
		newTextRow("field.name", nil, newEntry(keys), d, func(j job.Job) string { return j.Name }, func(_ job.Job, s string) (edit.Edit, error) {
			return edit.Of(message.Of("edit.name"), func(j *job.Job) { j.Name = job.Visible(s, false) }), nil
		}),
		newTextRow("field.notes", nil, notes, d, func(j job.Job) string { return j.Notes }, func(_ job.Job, s string) (edit.Edit, error) {
			return edit.Of(message.Of("edit.notes"), func(j *job.Job) { j.Notes = job.Visible(s, true) }), nil
		}),
		newChoiceRow(choice{"field.country", regions, func(j job.Job) string { return j.Region },
			func(v string) edit.Edit {
				return edit.Of(message.Of("edit.country"), func(j *job.Job) { j.Region = v })
			}, nil}, d),
		newChoiceRow(choice{"field.units", optionsOf(job.UnitSystems()), func(j job.Job) string { return string(j.Units) },
			func(v string) edit.Edit {
				return edit.Of(message.Of("edit.units"), func(j *job.Job) { j.Units = unit.System(v) })
			}, nil}, d),
		newCheckRow("field.accessible", d, func(j job.Job) bool { return j.Accessible },
			func(on bool) edit.Edit {
				return edit.Of(message.Of("edit.accessible"), func(j *job.Job) { j.Accessible = on })
			}, nil),
	}
	p.box = container.NewVBox()
	for _, r := range p.rows {
		p.box.Add(r.object())
	}
	p.box.Add(p.grounds)
	return p
}

func (p *jobPanel) object() fyne.CanvasObject { return p.box }

// show follows the job, and the rules its result was held against.
func (p *jobPanel) show(j job.Job, pack rule.Pack) {
	for _, row := range p.rows {
		row.refresh(j)
	}
	p.grounds.SetText(say(message.Of("pack.followed", message.In("name", message.Of(pack.Name())), message.In("grounds", message.Of(pack.Grounds()))), unit.Metric))
}
