package app

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"
	"underfall/app/control"
	"underfall/app/desk"
	"underfall/app/theme"
	"underfall/app/tray"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/part"
	"underfall/geometry/rule"
	"underfall/geometry/unit"
)

// jobPanel is the job's name, notes, region, units and the rules it is held
// against.
type jobPanel struct {
	rows    []tray.Row
	country *tray.ChoiceRow
	// came tells which parts came with the country, until the next edit.
	came    *widget.Label
	grounds *widget.Label
	// renew holds the job against the rules as they are now; hidden where it is.
	renew   *control.ToolButton
	edition string // of the rules as they are now
	box     *fyne.Container
}

func newJobPanel(d *desk.Desk, shelf part.Shelf, keys *control.Keys) *jobPanel {
	p := &jobPanel{came: widget.NewLabel(""), grounds: widget.NewLabel("")}
	p.grounds.Wrapping = fyne.TextWrapWord
	p.came.Wrapping = fyne.TextWrapWord
	p.came.Importance = widget.HighImportance
	p.came.Hide()
	asks := asksOf(d, shelf)
	notes := control.NewLinesEntry(keys, 3)
	notes.Wrapping = fyne.TextWrapWord
	var codes []string
	for code := range d.Regions() {
		if code != rule.CommonRegion {
			codes = append(codes, code)
		}
	}
	slices.Sort(codes)
	var regions []job.Option
	for _, c := range codes {
		regions = append(regions, job.Option{Value: c, Word: message.Of(d.Regions()[c].Name())})
	}
	p.country = tray.NewChoiceRow(tray.Choice{Label: "field.country", Options: tray.Always(regions),
		Get: func(j job.Job) string { return j.Region },
		Set: func(v string) edit.Edit { return edit.Region(v, d.Regions()[v].Edition, shelf) }}, asks, keys)
	p.rows = []tray.Row{
		newNameRow(asks, keys),
		tray.NewTextRow("field.notes", nil, notes, asks, func(j job.Job) string { return j.Notes }, func(_ job.Job, s string) (edit.Edit, error) {
			return edit.Of(message.Of("edit.notes"), func(j *job.Job) { j.Notes = job.Visible(s, true) }), nil
		}),
		p.country,
		tray.NewChoiceRow(tray.Choice{Label: "field.units", Options: tray.Always(job.UnitSystems().Options()),
			Get: func(j job.Job) string { return string(j.Units) },
			Set: func(v string) edit.Edit {
				return edit.Of(message.Of("edit.units"), func(j *job.Job) { j.Units = unit.System(v) })
			}}, asks, keys),
	}
	p.box = container.NewVBox()
	for _, r := range p.rows {
		p.box.Add(r.Object())
		if r == p.country {
			p.box.Add(p.came)
		}
	}
	p.renew = control.NewButton(keys, "", func() { d.Do(edit.Edition(p.edition)) })
	p.renew.Hide()
	p.box.Add(p.grounds)
	p.box.Add(p.renew)
	return p
}

// newNameRow is the field of the job's name.
func newNameRow(asks tray.Asks, keys *control.Keys) *tray.TextRow {
	return tray.NewTextRow("field.name", nil, control.NewEntry(keys), asks, func(j job.Job) string { return j.Name }, func(_ job.Job, s string) (edit.Edit, error) {
		return edit.Of(message.Of("edit.name"), func(j *job.Job) { j.Name = job.Visible(s, false) }), nil
	})
}

func (p *jobPanel) object() fyne.CanvasObject { return p.box }

// show follows the job, the rules its result was held against, and its last edit.
func (p *jobPanel) show(j job.Job, pack rule.Pack, last message.Message) {
	for _, row := range p.rows {
		row.Refresh(j)
	}
	if last.ID == edit.CountryParts {
		p.came.SetText(theme.Say(last, j.Units))
		p.came.Show()
	} else {
		p.came.Hide()
	}
	followed := message.Of("pack.followed", message.In("name", message.Of(pack.Name())), message.In("grounds", message.Of(pack.Grounds())))
	p.grounds.SetText(theme.Say(followed, unit.Metric))
	p.edition = pack.Edition
	if j.Edition == "" || j.Edition == pack.Edition {
		p.renew.Hide()
		return
	}
	p.renew.SetText(theme.Say(message.Of("app.renew", message.Name("edition", pack.Edition)), unit.Metric))
	p.renew.Show()
}
