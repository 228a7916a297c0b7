package app

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
)

// frame lays the window's regions out by how wide the window is: the drawings in the
// middle, the answer at the right, the order of work as a rail along the foot, and a tray
// of fields at the left when one is open.
type frame struct {
	regions         [regionCount]*fyne.Container // filled by whoever makes the window
	clips           [regionCount]fyne.CanvasObject
	across, upright *grip
	arrangement     arrangement
	all             *fyne.Container
	// narrowed is told when plan and picture, or section and rods, come to share one place, and when they no longer do.
	narrowed func(upper, lower bool)
	// As it was last told.
	narrowUpper, narrowLower bool
	// painted counts how often the window was about to be painted: each time it is asked how small it may be.
	painted int
	// showed is told when a region comes to be seen, and when it is no longer.
	showed func(region)
	unseen [regionCount]bool // as it was last told
	// roomLeft is told when another drawing than the room as it is measured is asked for.
	roomLeft func()
	slide    slide // of the tray
}

// newFrame makes the layout. Its regions stand in the order that they are read in, which Tab
// follows.
func newFrame(a arrangement) *frame {
	f := &frame{arrangement: a, narrowed: func(bool, bool) {}, roomLeft: func() {}, showed: func(region) {}}
	var objects []fyne.CanvasObject
	for i := range f.regions {
		f.regions[i] = container.NewStack()
		clip := container.NewClip(f.regions[i])
		clip.ExtendBaseWidget(clip) // without, it lays nothing out before it is painted
		f.clips[i] = clip
		objects = append(objects, clip)
	}
	f.across = f.newGrip(false, &f.arrangement.plan)
	f.upright = f.newGrip(true, &f.arrangement.upper)
	// The grips lie under the tray, which slides over the drawings.
	f.all = container.New(f, slices.Insert(objects, int(regionTray), fyne.CanvasObject(f.across), fyne.CanvasObject(f.upright))...)
	return f
}

// newGrip makes the grip that moves a share.
func (f *frame) newGrip(upright bool, s *share) *grip {
	return newGrip(upright, func(by float32) {
		p := f.arrangement.placed(f.all.Size())
		usual, whole := p.plan, p.drawings.Width
		if upright {
			usual, whole = p.upper, p.drawings.Height
		}
		s.move(by, whole, usual)
		f.all.Refresh()
	}, func() { s.reset(); f.all.Refresh() })
}

// in is what fills a region.
func (f *frame) in(r region) *fyne.Container { return f.regions[r] }

// fill puts what a region shows into it.
func (f *frame) fill(r region, o fyne.CanvasObject) {
	f.regions[r].Objects = []fyne.CanvasObject{o}
	f.regions[r].Refresh()
}

// openTray shows the tray or not, with fields or a list in it.
func (f *frame) openTray(open, fields bool) {
	if open != f.arrangement.trayOpen {
		f.slideTray(open)
	}
	f.arrangement.trayOpen, f.arrangement.trayFields = open, fields || !open && f.arrangement.trayFields
	f.all.Refresh()
}

// openTrial shows a trial in the place of the drawings and the answer, or no longer.
func (f *frame) openTrial(open bool) {
	f.arrangement.trial = open
	f.all.Refresh()
}

// giveRoom gives the place of all drawings to the plan, or back.
func (f *frame) giveRoom(on bool) {
	if f.arrangement.roomAlone != on {
		f.arrangement.roomAlone = on
		f.all.Refresh()
	}
}

// bring has a region show, where there is not room for all.
func (f *frame) bring(r region) {
	if f.arrangement.roomAlone && r != regionPlan {
		f.roomLeft()
	}
	a := f.arrangement
	switch r {
	case regionPlan, regionPicture:
		a.front = r
	case regionSection, regionRods:
		a.lower = r
	}
	if a != f.arrangement {
		f.arrangement = a
		f.all.Refresh()
	}
}

// MinSize is what the window may be made as small as.
func (f *frame) MinSize([]fyne.CanvasObject) fyne.Size {
	f.painted++
	return fyne.NewSize(1024, 656)
}

// Layout places the regions.
func (f *frame) Layout(_ []fyne.CanvasObject, all fyne.Size) {
	p := f.arrangement.placed(all)
	p.regions[regionTray] = f.slide.of(p.regions[regionTray])
	for i, o := range f.clips {
		put(o, p.regions[i])
	}
	for i, at := range p.regions {
		if r := region(i); at.seen == f.unseen[r] {
			f.unseen[r] = !at.seen
			f.showed(r)
		}
	}
	put(f.across, p.across)
	put(f.upright, p.upright)
	upper, lower := !p.both && !f.arrangement.roomAlone, !p.beside
	if upper != f.narrowUpper || lower != f.narrowLower {
		f.narrowUpper, f.narrowLower = upper, lower
		f.narrowed(upper, lower)
	}
}

// put puts something at its place.
func put(o fyne.CanvasObject, at place) {
	o.Move(at.at)
	o.Resize(at.size)
	if at.seen != o.Visible() {
		if at.seen {
			o.Show()
		} else {
			o.Hide()
		}
	}
}
