package control

import (
	"cmp"
	"slices"

	"fyne.io/fyne/v2"
	"underfall/app/theme"
	"underfall/geometry/placing"
)

// rodText is a text at the rods, about the middle of its place.
type rodText struct {
	text   string
	size   float32
	bold   bool
	role   theme.Role
	middle fyne.Position
}

// rodLettering is all that is written at the rods.
type rodLettering struct {
	texts []rodText
	leads []placing.Straight // from blocks to their names
	// inArrow tells of every step whether its figure stands within its arrow.
	inArrow []bool
}

// What it costs to leave a text of the rods out, and to have it where it stands less well: how high a rod is must be
// told, names of layers stand as far as they find room, the thicker first. In units of length.
const (
	rodMustCost  = 1e6
	layerCost    = 40 // of a name, and as much again for every layerMM
	layerMM      = 25
	smallerCost  = 60 // a figure written smaller
	aboveCost    = 4  // or a line higher
	besideArrow  = 2
	rodInkWeight = 3 // of a step's lines
	// rodBaseWeight is that of the line they stand on, which would strike a word through.
	rodBaseWeight = 12
	rodInkCell    = 2
)

// rodLetterer finds room for what is written at rods.
type rodLetterer struct {
	v      *rodsRenderer
	p      *place
	scene  placing.Scene
	labels []placing.Label
	// written are the texts of every candidate of every label.
	written [][][]rodText
	steps   []int // the labels of the steps
}

// lettered finds room for all that is written at the rods as they stand.
func (v *rodsRenderer) lettered(p *place) (out rodLettering) {
	size := v.r.BaseWidget.Size()
	l := rodLetterer{v: v, p: p}
	cover := placing.NewCover(float64(size.Width), float64(size.Height), rodInkCell)
	l.scene = placing.Scene{Picture: placing.Box{High: placing.Point{float64(size.Width), float64(size.Height)}}, Ink: cover,
		Cut: placing.NewCover(float64(size.Width), float64(size.Height), rodInkCell)}
	l.blocks()
	l.levels()
	l.names()
	for k := range v.r.steps {
		l.step(k)
	}
	l.layers()
	chosen := placing.Place(&l.scene, l.labels)
	for i, k := range chosen {
		if k >= 0 {
			out.texts = append(out.texts, l.written[i][k]...)
			out.leads = append(out.leads, l.labels[i].Candidates[k].Leader...)
		}
	}
	for _, i := range l.steps {
		out.inArrow = append(out.inArrow, i >= 0 && chosen[i] == 0)
	}
	return out
}

// add asks for room for a label; put adds a place for it.
func (l *rodLetterer) add(leaveOut float64) {
	l.labels = append(l.labels, placing.Label{LeaveOut: leaveOut})
	l.written = append(l.written, nil)
}

func (l *rodLetterer) put(cost float64, lead []placing.Straight, texts ...rodText) {
	last := len(l.labels) - 1
	c := placing.Candidate{Cost: cost, Leader: lead}
	for i := range texts {
		c.Boxes = append(c.Boxes, l.box(&texts[i]))
	}
	l.labels[last].Candidates = append(l.labels[last].Candidates, c)
	l.written[last] = append(l.written[last], texts)
}

// box is what a text takes; one that would run off to a side is moved in.
func (l *rodLetterer) box(text *rodText) placing.Box {
	t := l.v.r.theme()
	own := fyne.MeasureText(text.text, t.Text(text.size), fyne.TextStyle{Bold: text.bold})
	half := own.Width / 2
	text.middle.X = max(half, min(text.middle.X, l.v.r.BaseWidget.Size().Width-half))
	const lineShare = 0.82 // of a text's height that its letters take
	return placing.Around(placing.Point{float64(text.middle.X), float64(text.middle.Y)}, float64(own.Width), float64(own.Height)*lineShare)
}

// blocks are what no text lies on, and the lines of steps what it rather does not.
func (l *rodLetterer) blocks() {
	r, t := l.v.r, l.v.r.theme()
	for i := range r.rods {
		low, high := r.rods[i].FromMM, r.rods[i].topMM()
		at := placing.Point{float64(l.p.x[i]), float64(l.p.base) - high*l.p.perMM}
		to := placing.Point{at[0] + float64(t.Unit(rodWide)), float64(l.p.base) - low*l.p.perMM}
		l.scene.Taken = append(l.scene.Taken, placing.Box{Low: at, High: to})
		if from, to, ok := l.v.bare(l.p, i); ok {
			l.scene.Ink.Line(placing.Straight{from, to}, rodBaseWeight)
		}
	}
	for k := range r.steps {
		high, low := l.v.stepAt(l.p, &r.steps[k])
		x := float64(l.p.stepX[k])
		for _, from := range [2]struct {
			rod int
			y   float32
		}{{r.steps[k].High, high}, {r.steps[k].Low, low}} {
			y, edge := float64(from.y), float64(l.p.x[from.rod]+t.Unit(rodWide))
			l.scene.Ink.Line(placing.Straight{{edge, y}, {x, y}}, rodInkWeight)
		}
	}
	l.scene.Ink.Line(placing.Straight{{0, float64(l.p.base)}, {float64(r.BaseWidget.Size().Width), float64(l.p.base)}}, rodBaseWeight)
}

// levels are how high the rods stand, over them: a line higher, a little aside or smaller where two meet.
func (l *rodLetterer) levels() {
	r, t := l.v.r, l.v.r.theme()
	size := l.figureSize()
	for i := range r.rods {
		l.add(rodMustCost)
		top := l.p.base - float32(r.rods[i].topMM()*l.p.perMM)
		for _, s := range [2]float32{size, theme.TextLayer} {
			worse := 0.0
			if s != size {
				worse = smallerCost
			}
			if len(r.rods[i].Layers) == 0 { // a floor by itself: under its line as well
				at := fyne.NewPos(l.p.x[i]+t.Unit(rodWide)/2, top+t.Unit(figureHigh)/2)
				l.put(worse+aboveCost, nil, rodText{r.rods[i].Level, s, true, theme.Ink, at})
			}
			for n, aside := range [...]float32{0, -theme.Space2, theme.Space2, -theme.Space3, theme.Space3} {
				for up := range 4 {
					at := fyne.NewPos(l.p.x[i]+t.Unit(rodWide)/2+t.Unit(aside), top-t.Unit(figureHigh)/2-float32(up)*t.Unit(figureHigh)*0.7)
					l.put(worse+aboveCost*float64(up+n), nil, rodText{r.rods[i].Level, s, true, theme.Ink, at})
				}
			}
		}
	}
}

// figureSize is how large figures over the rods can be, all of them alike, without two beside each other meeting.
func (l *rodLetterer) figureSize() float32 {
	r, t := l.v.r, l.v.r.theme()
	for i := 1; i < len(r.rods); i++ {
		room := 2 * (l.p.x[i] - l.p.x[i-1]) // of half of each of the two
		need := wide(r.rods[i-1].Level, t.Text(theme.TextField), true) + wide(r.rods[i].Level, t.Text(theme.TextField), true)
		if need+2*t.Unit(theme.Space1) > room {
			return theme.TextLayer
		}
	}
	return theme.TextField
}

// names are those under the rods.
func (l *rodLetterer) names() {
	r, t := l.v.r, l.v.r.theme()
	ground := t.Unit(figureHigh) + float32((l.p.topMM-l.p.bottomMM)*l.p.perMM)
	for i := range r.rods {
		l.add(rodMustCost)
		at := fyne.NewPos(l.p.x[i]+t.Unit(rodWide)/2, ground+t.Unit(nameHigh)/2)
		l.put(0, nil, rodText{r.rods[i].Name, theme.TextCaption, false, theme.Ink, at})
		l.put(smallerCost, nil, rodText{r.rods[i].Name, theme.TextLayer, false, theme.Ink, at})
	}
}

// step is how high a step is: in its arrow where that has room, else under it, over it, beside it.
func (l *rodLetterer) step(k int) {
	r, t := l.v.r, l.v.r.theme()
	s := &r.steps[k]
	high, low := l.v.stepAt(l.p, s)
	l.steps = append(l.steps, len(l.labels))
	l.add(rodMustCost)
	at := func(cost float64, x, middle float32) {
		texts := []rodText{{s.Word, theme.TextCaption, s.Figure == "", s.role(), fyne.NewPos(x, middle-t.Unit(8))}}
		if s.Figure != "" {
			texts = append(texts, rodText{s.Figure, theme.TextTray, true, s.role(), fyne.NewPos(x, middle+t.Unit(9))})
		}
		l.put(cost, nil, texts...)
	}
	x, cost := l.p.stepX[k], 0.0
	const arrowRoom, under, wellUnder, over, aside = 70, 26, 42, 24, 44
	if s.Figure != "" && low-high >= t.Unit(arrowRoom) {
		at(0, x, (high+low)/2)
	} else {
		l.steps[len(l.steps)-1] = -1
	}
	for _, dx := range [...]float32{0, t.Unit(aside), -t.Unit(aside)} {
		at(cost+besideArrow, x+dx, low+t.Unit(under))
		at(cost+2*besideArrow, x+dx, high-t.Unit(over))
		at(cost+3*besideArrow, x+dx, low+t.Unit(wellUnder))
		cost += aboveCost
	}
}

// layers are the names of the layers of the rod that has them, the thicker first, each as near to its block as it finds
// room.
func (l *rodLetterer) layers() {
	r, t := l.v.r, l.v.r.theme()
	if l.p.words == 0 {
		return
	}
	layers := r.rods[r.worded].Layers
	order := make([]int, len(layers))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(layers[b].MM, layers[a].MM) })
	edge := l.p.x[r.worded] + t.Unit(rodWide)
	line := t.Unit(theme.TextLayer + 3)
	const offBlock = 0.5 // a lead begins at its block, and not in it
	for _, i := range order {
		if layers[i].Name == "" {
			continue
		}
		top, bottom := r.span(l.p, r.worded, i)
		of := (top + bottom) / 2
		l.add(layerCost * (1 + layers[i].MM/layerMM))
		wide := wide(layers[i].Name, t.Text(theme.TextLayer), false)
		for step := range 13 {
			// By turns over and under its block, further each time.
			off := float32((step+1)/2) * line / 3
			if step%2 == 1 {
				off = -off
			}
			y := of + off
			if of < l.p.base && y > l.p.base-line/2-1 {
				y = l.p.base - line/2 - 1 // the floor's line runs through no word
			}
			lead := placing.Straight{{float64(edge) + offBlock, float64(of)}, {float64(edge + t.Unit(theme.Space2) - 2), float64(y)}}
			l.put(float64(max(off, -off)), []placing.Straight{lead}, rodText{layers[i].Name, theme.TextLayer, false, theme.Ink,
				fyne.NewPos(edge+t.Unit(theme.Space2)+wide/2, y)})
		}
	}
}
