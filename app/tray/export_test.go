package tray

import "underfall/app/control"

// Helped is what stands in the place of the help, whether there is a drawing of it, and whether all can be seen.
func (t *Tray) Helped() (text string, drawn, whole bool) {
	p := t.open.place
	drawn = p.picture.there()
	whole = p.text.MinSize().Height <= p.scroll.Size().Height && (!drawn || p.picture.raster.Size().Height > 0)
	return p.text.Text, drawn, whole
}

// Scroll is what scrolls of the station that is open.
func (t *Tray) Scroll() *control.Scroller { return t.open.scroll }
