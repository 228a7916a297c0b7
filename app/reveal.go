package app

import (
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"underfall/geometry/job"
)

// groupOf is the group of inputs a key of the job file belongs to.
func groupOf(key string) job.Group {
	if p, ok := job.Find(key); ok {
		return p.Group
	}
	first, _, _ := strings.Cut(key, ".")
	first, _, _ = strings.Cut(first, "[")
	return map[string]job.Group{
		"room": job.GroupRoom, "floor": job.GroupFloor, "spotLevels": job.GroupFloor, "shower": job.GroupShower, "base": job.GroupBase,
		"former": job.GroupFormer, "drain": job.GroupDrain, "waste": job.GroupWaste, "layers": job.GroupLayers, "style": job.GroupLayers,
		"water": job.GroupWater, "tolerances": job.GroupSpread, "asBuilt": job.GroupBuilt,
	}[first]
}

// reveal opens the group a key belongs to and gives its field, with what can
// take the focus in it; the group's own heading when the key has no field.
func (in *inputs) reveal(key string) (fyne.CanvasObject, fyne.Focusable) {
	for _, g := range in.groups {
		if g.of != groupOf(key) {
			continue
		}
		in.accordion.Open(slices.Index(in.accordion.Items, g.item))
		for _, r := range in.rows {
			if n, ok := r.(*numberRow); ok && n.key == key && n.box.Visible() {
				return n.box, n.entry
			}
		}
		return g.item.Detail, nil
	}
	return nil, nil
}

// top is how far down the inputs an object stands.
func (in *inputs) top(o fyne.CanvasObject) float32 {
	d := fyne.CurrentApp().Driver()
	return d.AbsolutePositionForObject(o).Y - d.AbsolutePositionForObject(in.accordion).Y
}
