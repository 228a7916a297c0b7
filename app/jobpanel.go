package app

import (
	"sort"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"
	"underfall/app/desk"
	"underfall/geometry"
	"underfall/geometry/job"
	"underfall/geometry/rule"
)

// jobPanel is the job's name, notes, region, units and the rules it is held
// against.
type jobPanel struct {
	rows    []row
	grounds *widget.Label
	name    *widget.Entry
	notes   *widget.Entry
	setting bool
	box     *fyne.Container
}

func newJobPanel(d *desk.Desk) *jobPanel {
	p := &jobPanel{grounds: widget.NewLabel(""), name: widget.NewEntry(), notes: widget.NewMultiLineEntry()}
	p.grounds.Wrapping = fyne.TextWrapWord
	p.notes.Wrapping = fyne.TextWrapWord
	p.notes.SetMinRowsVisible(3)
	p.name.OnChanged = func(s string) {
		if !p.setting {
			d.EditLive("name", func(j job.Job) job.Job { j.Name = s; return j })
		}
	}
	p.notes.OnChanged = func(s string) {
		if !p.setting {
			d.EditLive("notes", func(j job.Job) job.Job { j.Notes = s; return j })
		}
	}
	var codes, names []string
	for code := range d.Regions() {
		if code != rule.CommonRegion {
			codes = append(codes, code)
		}
	}
	sort.Strings(codes)
	for _, c := range codes {
		names = append(names, d.Regions()[c].Name)
	}
	edit := func(live string, change func(job.Job) job.Job) job.Problems { return d.EditLive(live, change) }
	p.rows = []row{
		newChoiceRow(choice{"Rules of", codes, names, func(j job.Job) string { return j.Region }, func(j job.Job, s string) job.Job { j.Region = s; return j }, nil}, edit),
		newChoiceRow(choice{"Units", words("metric", "imperial"), words("Millimetres", "Inches"), func(j job.Job) string { return string(j.Units) },
			func(j job.Job, s string) job.Job { setUnits(&j, s); return j }, nil}, edit),
		newCheckRow("Accessible: step-free limits apply", func(j job.Job) bool { return j.Accessible },
			func(j job.Job, on bool) job.Job { j.Accessible = on; return j }, nil, edit),
	}
	p.box = container.NewVBox(widget.NewLabel(text("Name")), p.name, widget.NewLabel(text("Notes")), p.notes)
	for _, r := range p.rows {
		p.box.Add(r.object())
	}
	p.box.Add(p.grounds)
	return p
}

func (p *jobPanel) object() fyne.CanvasObject { return p.box }

func (p *jobPanel) show(r geometry.Result) {
	p.setting = true
	defer func() { p.setting = false }()
	for entry, s := range map[*widget.Entry]string{p.name: r.Settled.Name, p.notes: r.Settled.Notes} {
		c := fyne.CurrentApp().Driver().CanvasForObject(entry)
		if entry.Text != s && (c == nil || c.Focused() != entry) {
			entry.SetText(s)
		}
	}
	for _, row := range p.rows {
		row.refresh(r.Settled)
	}
	p.grounds.SetText(textf("Rules: %s. %s", r.Pack.Name, text(r.Pack.Grounds)))
}
