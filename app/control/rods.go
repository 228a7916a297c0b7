package control

import (
	"image/color"
	"math"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"underfall/app/theme"
	"underfall/geometry/material"
)

// Layer is a block of a rod.
type Layer struct {
	ID       string
	Name     string // with its thickness, as it stands beside the block
	MM       float64
	Material material.Material
	Colour   color.RGBA // its own, of a finish; zero for its material's
	FallDeg  float64    // how its fall lies, of one that falls
}

// Rod is a stack of layers as a fitter marks them on a batten, from the floor up.
type Rod struct {
	ID     string
	Name   string // under it: the drain, the way in, the room
	Level  string // over it: how high it stands
	FromMM float64
	Layers []Layer
}

// topMM is how high the rod stands.
func (r *Rod) topMM() float64 {
	top := r.FromMM
	for _, l := range r.Layers {
		top += l.MM
	}
	return top
}

// RodSet is what is shown beside each other: rods, the layers of one of which are named, by its place, and the
// steps between two of them.
type RodSet struct {
	Rods   []Rod
	Worded int
	Steps  []Between
}

// Between is the step drawn between two rods.
type Between struct {
	High, Low int        // the rods, by their place
	Word      string     // step, lip, flush
	Figure    string     // how high it is; empty where it is flush
	Kind      theme.Kind // Step, Lip or Flush
}

// Rods are upright stacks to one scale, each with its figure, and the steps between two of them.
// A block can be pressed; the arrows go from block to block.
type Rods struct {
	focus
	About string // what it shows, for who cannot see
	sets  []RodSet
	// What is shown of them, in the room that there is.
	rods   []Rod
	steps  []Between
	worded int
	// chosen is the layer that is marked as chosen, by its ID.
	chosen string
	// atRod and atLayer are where the arrows are.
	atRod, atLayer int
	OnLayer        func(rod, layer string)
}

// NewRods makes an empty set.
func NewRods(keys *Keys, about string, f func(rod, layer string)) *Rods {
	r := &Rods{About: about, OnLayer: f}
	r.begin(r, keys)
	return r
}

// Set shows the first of several sets that finds room, else the last.
func (r *Rods) Set(sets ...RodSet) {
	r.sets = sets
	r.fill(r.BaseWidget.Size().Width)
	r.Refresh()
}

// fill shows the set that finds room in a width.
func (r *Rods) fill(width float32) {
	r.rods, r.steps, r.worded = nil, nil, 0
	for i, s := range r.sets {
		r.rods, r.steps, r.worded = s.Rods, s.Steps, s.Worded
		if _, fits := r.gap(0, width); fits || i == len(r.sets)-1 {
			break
		}
	}
	r.atRod = min(r.atRod, max(0, len(r.rods)-1))
	r.atLayer = min(r.atLayer, max(0, r.layers()-1))
}

// Resize shows what finds room.
func (r *Rods) Resize(size fyne.Size) {
	r.fill(size.Width)
	r.BaseWidget.Resize(size)
}

// Choose marks a layer as chosen, by its ID; none for an empty one.
func (r *Rods) Choose(layer string) {
	if layer != r.chosen {
		r.chosen = layer
		r.Refresh()
	}
}

// layers is how many the rod has that the arrows are at.
func (r *Rods) layers() int {
	if r.atRod >= len(r.rods) {
		return 0
	}
	return len(r.rods[r.atRod].Layers)
}

// AccessibilityLabel says how high every rod stands, and the layers of the one that is named.
func (r *Rods) AccessibilityLabel() string {
	said := slicesOf(r.About)
	for i, rod := range r.rods {
		text := rod.Name + " " + rod.Level
		if i == r.worded {
			var names []string
			for _, l := range rod.Layers {
				names = append(names, l.Name)
			}
			text += ": " + strings.Join(names, ", ")
		}
		said = append(said, text)
	}
	for _, s := range r.steps {
		said = append(said, strings.TrimSpace(s.Word+" "+s.Figure))
	}
	return strings.Join(said, "; ")
}

// AccessibilityRole is the nearest there is.
func (r *Rods) AccessibilityRole() fyne.AccessibleRole { return fyne.AccessibleRoleContainer }

// TypedKey goes from block to block and presses one; other keys are handed on.
func (r *Rods) TypedKey(k *fyne.KeyEvent) {
	switch {
	case len(r.rods) == 0:
		r.pass(k)
	case k.Name == fyne.KeyLeft || k.Name == fyne.KeyRight:
		by := map[fyne.KeyName]int{fyne.KeyLeft: -1, fyne.KeyRight: 1}[k.Name]
		r.atRod = min(max(0, r.atRod+by), len(r.rods)-1)
		r.atLayer = min(r.atLayer, max(0, r.layers()-1))
		r.Refresh()
	case k.Name == fyne.KeyUp || k.Name == fyne.KeyDown:
		by := map[fyne.KeyName]int{fyne.KeyDown: -1, fyne.KeyUp: 1}[k.Name]
		r.atLayer = min(max(0, r.atLayer+by), max(0, r.layers()-1))
		r.Refresh()
	case pressed(k.Name):
		r.press(r.atRod, r.atLayer)
	default:
		r.pass(k)
	}
}

// Tapped presses the block under the pointer.
func (r *Rods) Tapped(e *fyne.PointEvent) {
	if rod, layer, ok := r.at(e.Position); ok {
		r.atRod, r.atLayer = rod, layer
		FocusOn(r)
		r.press(rod, layer)
	}
}

func (r *Rods) press(rod, layer int) {
	if r.OnLayer != nil && rod < len(r.rods) && layer < len(r.rods[rod].Layers) {
		r.OnLayer(r.rods[rod].ID, r.rods[rod].Layers[layer].ID)
	}
}

// MouseMoved names the block under the pointer.
func (r *Rods) MouseMoved(e *desktop.MouseEvent) {
	rod, layer, ok := r.at(e.Position)
	if !ok {
		r.keys.Hints.hide(r)
		return
	}
	text := r.rods[rod].Layers[layer].Name
	r.keys.Hints.soon(r, func() string { return text })
}

// The sizes of a set of rods, in units.
const (
	rodWide    = 30
	rodGap     = 28 // between two
	leastGap   = 12 // where there is little room
	figureHigh = 24 // over a rod
	nameHigh   = 24 // under them
	namesApart = 8  // of two names: more than words of one keep
	tightGap   = 8  // between two rods at least, else names of layers are left out
	stepWide   = 56 // for the step
	leastBlock = 3  // a block lower than that cannot be hit: what lies next to it is pressed as well
)

// place is how rods stand in the room there is, in units.
type place struct {
	x        []float32 // of the left side of every rod
	base     float32   // where level nought lies
	perMM    float64   // units to a millimetre
	words    float32   // how much room the names of layers have; 0 for none
	stepX    []float32 // of the middle of every step
	topMM    float64
	bottomMM float64
}

// room is how the rods stand.
func (r *Rods) room() place {
	t, size := r.theme(), r.BaseWidget.Size()
	var p place
	for i := range r.rods {
		p.topMM = max(p.topMM, r.rods[i].topMM())
		p.bottomMM = min(p.bottomMM, r.rods[i].FromMM)
	}
	high := size.Height - t.Unit(figureHigh+nameHigh)
	p.perMM = float64(max(1, high)) / max(1, p.topMM-p.bottomMM)
	p.base = t.Unit(figureHigh) + float32(p.topMM*p.perMM)
	wide := t.Unit(rodWide)
	p.words = r.wordsWide()
	gap, fits := r.gap(p.words, size.Width)
	if !fits { // without names, then
		p.words = 0
		gap, _ = r.gap(0, size.Width)
	}
	x := gap
	p.stepX = make([]float32, len(r.steps))
	for i := range r.rods {
		p.x = append(p.x, x)
		x += wide + r.after(i, gap, p.words)
		for k := range r.steps {
			if r.steps[k].last() == i {
				p.stepX[k] = x - gap + t.Unit(stepWide)/2
				x += t.Unit(stepWide) - t.Unit(leastGap)
			}
		}
	}
	return p
}

// last is the later of the two rods of a step, behind which it is drawn.
func (b *Between) last() int { return max(b.High, b.Low) }

// after is what is left free behind a rod: for the names of its layers, if it has them, and so that its own
// name keeps apart from the next.
func (r *Rods) after(rod int, gap, words float32) float32 {
	if rod+1 < len(r.rods) {
		gap = max(gap, (r.nameWide(rod)+r.nameWide(rod+1))/2+r.theme().Unit(namesApart)-r.theme().Unit(rodWide))
	}
	if rod == r.worded {
		return max(gap, words+r.theme().Unit(theme.Space1))
	}
	return gap
}

// nameWide is how wide the name under a rod is.
func (r *Rods) nameWide(rod int) float32 {
	return wide(r.rods[rod].Name, r.theme().Text(theme.TextCaption), false)
}

// gap is what is left free between rods so that all of them, with names of a width, and the steps
// have room in a width; fits is false where that is too little.
func (r *Rods) gap(words, width float32) (gap float32, fits bool) {
	t := r.theme()
	room := width - float32(len(r.rods))*t.Unit(rodWide) - float32(len(r.steps))*(t.Unit(stepWide)-t.Unit(leastGap))
	needs := func(gap float32) float32 {
		sum := gap
		for i := range r.rods {
			sum += r.after(i, gap, words)
		}
		return sum
	}
	least, most := t.Unit(tightGap), t.Unit(rodGap)
	const step = 1
	for gap = most; gap > least && needs(gap) > room; gap -= step {
	}
	return gap, needs(gap) <= room
}

// wordsWide is how wide the names of the layers are, with the line that leads to them.
func (r *Rods) wordsWide() (widest float32) {
	t := r.theme()
	if r.worded < 0 || r.worded >= len(r.rods) {
		return 0
	}
	for _, l := range r.rods[r.worded].Layers {
		widest = max(widest, wide(l.Name, t.Text(theme.TextLayer), false))
	}
	if widest == 0 {
		return 0
	}
	return widest + t.Unit(theme.Space3)
}

// span is where a block lies, from its upper to its lower edge.
func (r *Rods) span(p *place, rod, layer int) (top, bottom float32) {
	z := r.rods[rod].FromMM
	for _, l := range r.rods[rod].Layers[:layer] {
		z += l.MM
	}
	to := z + r.rods[rod].Layers[layer].MM
	return p.base - float32(to*p.perMM), p.base - float32(z*p.perMM)
}

// at is the block at a place, or the nearest in its rod.
func (r *Rods) at(q fyne.Position) (rod, layer int, ok bool) {
	p := r.room()
	wide := r.theme().Unit(rodWide)
	for i := range p.x {
		if q.X < p.x[i] || q.X >= p.x[i]+wide {
			continue
		}
		nearest := math.Inf(1)
		for k := range r.rods[i].Layers {
			top, bottom := r.span(&p, i, k)
			off := float64(max(top-q.Y, q.Y-bottom, 0))
			if off < nearest {
				nearest, rod, layer = off, i, k
			}
		}
		return rod, layer, nearest <= leastBlock
	}
	return 0, 0, false
}
