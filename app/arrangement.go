package app

import "fyne.io/fyne/v2"

// region is a part of the window. They are counted in the order that they are read in.
type region int

// The regions.
const (
	regionTop region = iota
	regionPlan
	regionPicture
	regionSection
	regionRods
	regionAnswer
	regionReadout
	regionRail
	regionTray
	regionTrial // a trial takes the place of all but the top and the rail
	regionCount
)

// Widths at which the layout changes, and sizes of the regions, in Fyne's units.
const (
	mediumFrom, wideFrom, hugeFrom = 1180, 1600, 2560
	frameEdge, frameGap            = 12, 8
	trayWidth                      = 344
	gripThick                      = 12
	topGap                         = 4 // between the top bar and what is under it
)

// measures are the sizes of the regions for a width.
type measures struct {
	top, readout                     float32 // their heights
	rail, tray, fields, answer, rods float32 // fields is the width of the tray with a station's fields
	plan, upper                      float32 // the usual shares
	both                             bool    // plan and picture beside each other
	beside                           bool    // section and rods likewise
}

// besideFrom is how wide the drawings are together from when on plan and picture stand beside each other:
// in less, as beside the tray in a window of 1280, neither would have room for what is written in it. rodsBesideFrom is
// that of section and rods: in less, as beside the tray in the least window, the section would not have room for its head.
const besideFrom, rodsBesideFrom = 720, 560

// measuresFor a width of the window.
func measuresFor(width float32, large bool) measures {
	m := usualMeasures(width)
	if large {
		m.top, m.readout, m.rail = 56, 28, m.rail+14
		m.tray, m.fields, m.answer, m.rods = m.tray+40, m.fields+40, max(m.answer+24, 340), m.rods+12
		if width < mediumFrom { // beside more the section would not have room for its head
			m.tray, m.fields = 328, 328
		}
	}
	return m
}

// usualMeasures are those where things to press are of the usual size.
func usualMeasures(width float32) measures {
	m := measures{top: 48, readout: 24, rail: 64, tray: trayWidth, fields: 316, rods: 360, plan: 0.5, upper: 0.56, both: true}
	switch {
	case width < mediumFrom:
		m.fields, m.answer, m.rods, m.plan, m.upper, m.both = 300, 300, 276, 1, 0.55, false
	case width < wideFrom:
		m.fields, m.answer, m.rods, m.plan, m.upper = 300, 340, 276, 0.48, 0.55
	case width < hugeFrom:
		m.answer = 420
	default:
		m.answer = 480
	}
	return m
}

// share is how much of a length the first of two regions takes: what is usual for the window's
// width, until it is moved.
type share struct {
	moved bool
	to    float32 // once it is moved, of the whole
}

// leastShare is how little of the whole either of the two keeps.
const leastShare = 0.2

// of is the share where so much is usual.
func (s share) of(usual float32) float32 {
	if s.moved {
		return s.to
	}
	return usual
}

// move moves the border by a length, where the whole is so long and a share usual.
func (s *share) move(by, whole, usual float32) {
	if whole > 0 {
		s.to, s.moved = min(max(s.of(usual)+by/whole, leastShare), 1-leastShare), true
	}
}

// reset brings the usual share back.
func (s *share) reset() { *s = share{} }

// arrangement is how the window is laid out, as far as its width does not say.
type arrangement struct {
	plan  share // of the upper drawings' width that the plan takes
	upper share // of the drawings' height that the upper ones take
	// front is which of plan and picture shows where they share one place, lower which of section and rods.
	front, lower         region
	trayOpen, trayFields bool
	// roomAlone gives all the drawings' place to the plan: the room is being measured.
	roomAlone bool
	large     bool // with everything to press large
	trial     bool // a trial is shown
}

// usualArrangement is the one a window begins with.
func usualArrangement() arrangement { return arrangement{front: regionPlan, lower: regionSection} }

// place is where something stands in the window, and whether it shows.
type place struct {
	at   fyne.Position
	size fyne.Size
	seen bool
}

func placeAt(x, y, w, h float32, seen bool) place {
	return place{fyne.NewPos(x, y), fyne.NewSize(max(w, 0), max(h, 0)), seen}
}

// placed is where everything stands in a window of a size.
type placed struct {
	measures
	drawings        fyne.Size // what the drawings have together
	regions         [regionCount]place
	across, upright place // the grips
}

// placed lays out a window of a size.
func (a arrangement) placed(all fyne.Size) placed {
	p := placed{measures: measuresFor(all.Width, a.large)}
	tray := p.tray
	if a.trayFields {
		tray = p.fields
	}
	foot := all.Height - p.rail - p.readout // where the readout begins
	top := p.top + topGap
	p.drawings = fyne.NewSize(all.Width-2*frameEdge-frameGap-p.answer, foot-p.top-frameGap)
	if a.trayOpen {
		p.drawings.Width -= tray + frameGap
	}
	p.both, p.beside = p.both && p.drawings.Width >= besideFrom, p.drawings.Width >= rodsBesideFrom
	answer := all.Width - frameEdge - p.answer
	x, right := answer-frameGap-p.drawings.Width, answer-frameGap
	p.regions[regionTop] = placeAt(0, 0, all.Width, p.top, true)
	p.regions[regionRail] = placeAt(0, all.Height-p.rail, all.Width, p.rail, true)
	p.regions[regionReadout] = placeAt(frameEdge, foot, all.Width-2*frameEdge, p.readout, true)
	p.regions[regionAnswer] = placeAt(answer, top, p.answer, foot-top, true)
	p.regions[regionTray] = placeAt(frameEdge, top, tray, foot-top, a.trayOpen)

	if a.roomAlone && !a.trial {
		p.both = false
		p.regions[regionPlan] = placeAt(x, top, p.drawings.Width, foot-frameGap-top, true)
		return p
	}
	upper := p.drawings.Height * a.upper.of(p.upper)
	border := p.top + upper // where the upper drawings end
	planWidth := p.drawings.Width
	if p.both {
		planWidth = (p.drawings.Width - frameGap) * a.plan.of(p.plan)
		p.regions[regionPicture] = placeAt(x+planWidth+frameGap, top, p.drawings.Width-planWidth-frameGap, border-top, true)
		p.across = placeAt(x+planWidth+(frameGap-gripThick)/2, top, gripThick, border-top, true)
	} else {
		p.regions[regionPicture] = placeAt(x, top, planWidth, border-top, a.front == regionPicture)
	}
	p.regions[regionPlan] = placeAt(x, top, planWidth, border-top, p.both || a.front == regionPlan)
	lower := border + frameGap
	sectionWidth := p.drawings.Width
	if p.beside {
		sectionWidth -= p.rods + frameGap
	} else {
		p.rods = p.drawings.Width
	}
	p.regions[regionSection] = placeAt(x, lower, sectionWidth, foot-frameGap-lower, p.beside || a.lower == regionSection)
	p.regions[regionRods] = placeAt(right-p.rods, lower, p.rods, foot-frameGap-lower, p.beside || a.lower == regionRods)
	p.upright = placeAt(x, border+(frameGap-gripThick)/2, p.drawings.Width, gripThick, true)
	p.regions[regionTrial] = placeAt(frameEdge, top, all.Width-2*frameEdge, all.Height-p.rail-frameGap-top, a.trial)
	if a.trial {
		for r := range p.regions {
			if r != int(regionTop) && r != int(regionRail) && r != int(regionTrial) {
				p.regions[r].seen = false
			}
		}
		p.across.seen, p.upright.seen = false, false
	}
	return p
}
