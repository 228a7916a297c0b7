package tray

import (
	"fyne.io/fyne/v2"
	"underfall/app/control"
	"underfall/app/theme"
)

// stacked lays what is there under one another, closely, each as wide as all.
type stacked struct{}

const stackGap = 2

// MinSize is the widest, and all of the heights.
func (stacked) MinSize(objects []fyne.CanvasObject) fyne.Size {
	return under(objects, 0, stackGap, false)
}

// Layout places them.
func (stacked) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	under(objects, size.Width, stackGap, true)
}

// under places what is there under one another in a width and tells what that takes; without placing
// it only tells. A text in several lines knows how high it is once it has its width.
func under(objects []fyne.CanvasObject, width, gap float32, place bool) (all fyne.Size) {
	for _, o := range objects {
		if !o.Visible() {
			continue
		}
		if all.Height > 0 {
			all.Height += gap
		}
		least := o.MinSize()
		if place {
			o.Resize(fyne.NewSize(width, least.Height))
			least = o.MinSize()
			o.Move(fyne.NewPos(0, all.Height))
			o.Resize(fyne.NewSize(width, least.Height))
		}
		all.Width, all.Height = max(all.Width, least.Width), all.Height+least.Height
	}
	return all
}

// apart lays what is there under one another as stacked does, with the gap between two fields.
type apart struct{}

const fieldGap = theme.Space2

// MinSize is the widest, and all of the heights.
func (apart) MinSize(objects []fyne.CanvasObject) fyne.Size {
	return under(objects, 0, fieldGap, false)
}

// Layout places them.
func (apart) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	under(objects, size.Width, fieldGap, true)
}

// room is the tray: a head and a foot of their own heights, the place of the help over the foot, and what scrolls
// between head and help.
type room struct{ help *helpPlace }

// MinSize is the widest, with a little of what scrolls.
func (room) MinSize(objects []fyne.CanvasObject) fyne.Size {
	least := under(objects, 0, fieldGap, false)
	return fyne.NewSize(least.Width+2*inset, least.Height+2*inset)
}

// inset is what the tray leaves free at its sides.
const inset = theme.Space2

// Layout places head, what scrolls, and foot.
func (r room) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	head, scroll, help, foot := objects[0], objects[1], objects[2], objects[3]
	helpHigh := r.help.high(size.Height)
	size = size.SubtractWidthHeight(2*inset, 2*inset)
	high := func(o fyne.CanvasObject) float32 {
		o.Resize(fyne.NewSize(size.Width, o.MinSize().Height))
		least := o.MinSize().Height
		o.Resize(fyne.NewSize(size.Width, least))
		return least
	}
	top, bottom := high(head), high(foot)
	head.Move(fyne.NewPos(inset, inset))
	foot.Move(fyne.NewPos(inset, inset+size.Height-bottom))
	help.Move(fyne.NewPos(inset, inset+size.Height-bottom-fieldGap-helpHigh))
	help.Resize(fyne.NewSize(size.Width, helpHigh))
	scroll.Move(fyne.NewPos(inset, inset+top+fieldGap))
	scroll.Resize(fyne.NewSize(size.Width, max(0, size.Height-top-bottom-helpHigh-3*fieldGap)))
}

// besideBar leaves room for the bar that scrolls.
type besideBar struct{}

// MinSize is that of what scrolls, with the bar.
func (besideBar) MinSize(objects []fyne.CanvasObject) fyne.Size {
	return objects[0].MinSize().Add(fyne.NewSize(barRoom, 0))
}

// Layout places it.
func (besideBar) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	objects[0].Move(fyne.NewPos(0, 0))
	objects[0].Resize(size.SubtractWidthHeight(barRoom, 0))
}

const barRoom = theme.Space3

// labelOver is a label over a field.
func labelOver(text string) *control.Text {
	return control.NewWrapped(text).Styled(theme.TextSecond, true, theme.Ink)
}

// heading is over several fields.
func heading(text string) *control.Text {
	return control.NewWrapped(text).Styled(theme.TextHeading, true, theme.Ink)
}

// caption is a second text.
func caption(text string) *control.Text {
	return control.NewWrapped(text).Styled(theme.TextCaption, false, theme.Caption)
}
