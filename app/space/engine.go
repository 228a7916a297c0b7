package space

import (
	"errors"
	"fmt"
	"image"
	"math"
	"slices"
	"time"

	"github.com/go-gl/mathgl/mgl64"
	"underfall/app/guard"
	"underfall/app/paint"
	"underfall/app/theme"
	"underfall/geometry"
	"underfall/geometry/message"
	"underfall/geometry/placing"
	"underfall/geometry/solid"
	"underfall/viewer"
)

// wish is the picture somebody wants: values only, so that it can go to
// another goroutine.
type wish struct {
	result     geometry.Result
	generation int // counts results
	serial     int // counts wishes
	cuts       []solid.Cut
	// frame is all but its scene and caps.
	frame  viewer.Frame
	moving bool
	// once tells that the picture follows a change of the job that nobody holds on to: it is to be there at once, and
	// the one at rest soon comes after it.
	once bool
	// style is that of what is written over the picture; dimensions tells whether those of the cuts are.
	style      paint.Style
	dimensions bool
	// pins are the places that are marked, taken is what lies over the picture, in pixels of its frame.
	pins  []pin
	taken []placing.Box
	// others are results to show beside the first, each from the share of the width on where it begins.
	others  []beside
	divides []float64
}

// engine draws wishes in a studio. Only the newest wish counts.
type engine struct {
	studio  *viewer.Studio
	show    func(painted)
	trouble func(error)
	drawnBy func([]message.Message)
	painter *paint.Painter
	// What follows belongs to the studio's goroutine.
	share    quickShare
	drawn    [viewer.Slots]drawn // the first of what is worked on
	parts    parts
	sections sections
	places   []int            // of the labels over the latest picture
	told     *viewer.Renderer // whose DrawnBy was told last
}

// painted is a picture, what it is of, which of the results that is, and where pins stand in it.
type painted struct {
	image      *image.RGBA
	frame      viewer.Frame
	generation int
	serial     int // of the wish
	pins       []stuck
}

// startEngine opens the studio. All that is handed over is called from the
// studio's goroutine: show with each picture and what it is of, drawnBy with what
// draws, trouble when a picture could not be drawn, failed when there is no 3D.
func startEngine(g *guard.Guard, painter *paint.Painter, show func(painted), drawnBy func([]message.Message),
	trouble, failed func(error)) *engine {
	return &engine{studio: viewer.OpenStudio(g, failed), painter: painter, show: show, drawnBy: drawnBy, trouble: trouble,
		share: quickShare{0.7}}
}

func (e *engine) ask(w wish) {
	p := &progress{engine: e, wish: w}
	e.studio.Live(viewer.Picture{Step: p.step, Doing: w.describe})
}

// leave ends what is being drawn.
func (e *engine) leave() {
	e.studio.Live(viewer.Picture{Step: func(*viewer.Renderer) (bool, error) { return false, nil }})
}

func (e *engine) close() { e.studio.Close() }

// What moves is drawn at no less than a share of its size, and nowhere smaller than so many pixels; what is there only
// once may be.
const (
	leastShare           = 0.35
	leastWide, leastHigh = 400, 250
)

// of is the share of its size that a wish is drawn at.
func (q *quickShare) of(w *wish) float64 {
	if w.once {
		return q.share
	}
	return min(1, max(q.share, leastWide/float64(w.frame.Width), leastHigh/float64(w.frame.Height)))
}

// quickShare adapts the size of moving pictures so that they come at 25 a
// second or more.
type quickShare struct{ share float64 }

func (q *quickShare) adapt(took time.Duration) {
	switch {
	case took > 34*time.Millisecond:
		q.share = max(leastShare, q.share*0.82)
	case took < 18*time.Millisecond:
		q.share = min(1, q.share*1.12)
	}
}

// drawn is a result made ready for drawing, kept while it stays the same.
type drawn struct {
	generation int
	scene      *viewer.Scene
	caps       *viewer.Caps
	capsFor    wish
}

// ready brings scene and caps to a wish.
func (d *drawn) ready(w *wish, r geometry.Result, generation int) (*viewer.Scene, *viewer.Caps) {
	fresh := d.scene == nil || generation != d.generation
	if fresh {
		d.scene, d.generation = viewer.NewScene(r, d.scene), generation
	}
	if len(w.cuts) == 0 {
		d.caps = nil
	} else if fresh || d.caps == nil || d.capsFor.frame.Stage != w.frame.Stage || !slices.Equal(d.capsFor.cuts, w.cuts) {
		d.caps = viewer.NewCaps(r, w.frame.Stage, viewer.HatchMM, w.cuts...)
	}
	d.capsFor = *w
	return d.scene, d.caps
}

// progress is a wish on its way to its best picture.
type progress struct {
	*engine
	wish   wish
	frames []viewer.Frame // made ready at the first step
	quick  bool           // the quick picture is shown
	best   [viewer.Slots]*image.RGBA
}

// step draws some of it: once while something moves, else better and better.
func (p *progress) step(r *viewer.Renderer) (more bool, err error) {
	if p.told != r {
		p.told = r
		p.drawnBy(r.DrawnBy())
	}
	if len(p.wish.result.Problems) > 0 {
		return false, nil
	}
	if p.frames == nil {
		p.ready()
	}
	switch {
	case p.wish.moving:
		err = p.move(r)
	case !p.quick:
		more, err = true, p.draw(r, p.frames)
		p.quick = true
	default:
		more, err = p.refine(r)
	}
	if errors.Is(err, viewer.ErrLost) {
		p.quick = false // the next renderer begins again
	} else if err != nil {
		p.trouble(err)
	}
	return more, err
}

// ready makes the frames.
func (p *progress) ready() {
	w, f := &p.wish, p.wish.frame
	f.Scene, f.Caps = p.drawn[0].ready(w, w.result, w.generation)
	p.frames = []viewer.Frame{f}
	p.order(w)
	for i, o := range w.others {
		g := w.frame
		g.Light, g.Wet = o.result.Stated.Lit(), o.result.Stated.Shown().Wet
		g.Scene, g.Caps = p.drawn[1+i].ready(w, *o.result, o.generation)
		p.frames = append(p.frames, g)
	}
}

// order brings what is made ready beside the first to the order in which a wish has it, so that it stays ready where another is
// taken away. What is new begins with what the first has.
func (e *engine) order(w *wish) {
	rest := e.drawn[1:]
	for i, o := range w.others {
		if k := slices.IndexFunc(rest[i:], func(d drawn) bool { return d.scene != nil && d.generation == o.generation }); k > 0 {
			rest[i], rest[i+k] = rest[i+k], rest[i]
		}
		if rest[i].scene == nil {
			rest[i].scene = e.drawn[0].scene
		}
	}
}

// strip is what is seen of the width of a result's picture, beside those of others.
func (w *wish) strip(i int) [2]float64 {
	if len(w.others) == 0 {
		return [2]float64{}
	}
	at := slices.Concat([]float64{0}, w.divides, []float64{1})
	return [2]float64{at[i], at[i+1]}
}

// move draws a quick picture, as large as there is time for.
func (p *progress) move(r *viewer.Renderer) error {
	small := append([]viewer.Frame(nil), p.frames...)
	share := p.share.of(&p.wish)
	for i := range small {
		for _, side := range []*int{&small[i].Width, &small[i].Height} {
			*side = max(1, int(math.Ceil(float64(*side)*share)))
		}
	}
	start := time.Now()
	err := p.draw(r, small)
	p.share.adapt(time.Since(start))
	return err
}

// draw shows a quick picture of the frames.
func (p *progress) draw(r *viewer.Renderer, frames []viewer.Frame) error {
	img, pins, err := p.each(&p.wish, frames, func(_ int, f viewer.Frame) (*image.RGBA, error) { return r.Draw(f) })
	if err == nil {
		p.show(painted{img, p.frames[0], p.wish.generation, p.wish.serial, pins})
	}
	return err
}

// refine draws some more of the pictures at rest, and shows them where they got
// better.
func (p *progress) refine(r *viewer.Renderer) (more bool, err error) {
	fresh := false
	for i, f := range p.frames {
		f.Strip = p.wish.strip(i)
		if p.best[i] == nil { // as where something else than the picture has changed
			p.best[i] = r.Rested(f, i)
			fresh = fresh || p.best[i] != nil
		}
		img, further, err := r.Rest(f, i)
		if err != nil {
			return false, err
		}
		more = more || further
		if img != nil {
			p.best[i], fresh = img, true
		}
	}
	if !fresh {
		return more, nil
	}
	for i := range p.frames { // what stands beside each other is of one size
		if p.best[i] == nil || p.best[i].Rect != p.best[0].Rect {
			return more, nil
		}
	}
	img, pins, err := p.each(&p.wish, p.frames, func(i int, _ viewer.Frame) (*image.RGBA, error) {
		return &image.RGBA{Pix: append([]uint8(nil), p.best[i].Pix...), Stride: p.best[i].Stride, Rect: p.best[i].Rect}, nil
	})
	if err != nil {
		return false, err
	}
	p.show(painted{img, p.frames[0], p.wish.generation, p.wish.serial, pins})
	return more, nil
}

// describe says what is wished for, for the report of a fault.
func (w wish) describe() string {
	f := w.frame
	return fmt.Sprintf("%d × %d pixels, moving %v, stage %d, look %d, light %s, wet %v, dark %v, "+
		"apart %.2f, arriving %.2f, chosen %q, camera %+v, cuts %+v, compared with %d",
		f.Width, f.Height, w.moving, f.Stage, f.Look, f.Light.Kind, f.Wet, f.Dark, f.Apart, f.Arriving, f.Chosen, f.Camera, w.cuts, len(w.others))
}

// each draws the frames and puts them together, one beside the other, and over them what is written, with where the pins came
// to stand.
func (e *engine) each(w *wish, frames []viewer.Frame, draw func(int, viewer.Frame) (*image.RGBA, error)) (*image.RGBA, []stuck, error) {
	img, err := draw(0, frames[0])
	if err != nil {
		return nil, nil, err
	}
	for i := range frames[1:] {
		other, err := draw(1+i, frames[1+i])
		if err != nil {
			return nil, nil, err
		}
		from := int(w.divides[i] * float64(img.Rect.Dx()))
		for y := range img.Rect.Dy() {
			copy(img.Pix[y*img.Stride+4*from:(y+1)*img.Stride], other.Pix[y*other.Stride+4*from:(y+1)*other.Stride])
		}
	}
	f := frames[0]
	f.Width, f.Height = img.Rect.Dx(), img.Rect.Dy()
	pins := e.write(w, f, img)
	for _, f := range frames {
		if fault := f.Fault(); !fault.IsZero() {
			e.painter.Say(img, theme.New(w.frame.Dark, theme.Book()).PaintStyle(1, w.result.Settled.Units, ""), fault)
			break
		}
	}
	return img, pins, nil
}

// write writes dimensions and pins over a picture of a frame, and tells where the pins came to stand.
func (e *engine) write(w *wish, f viewer.Frame, img *image.RGBA) []stuck {
	style := w.style
	share := float64(f.Width) / float64(w.frame.Width)
	style.Scale *= share
	var dimensioned []paint.Overlay
	if w.dimensions && w.frame.Apart == 0 {
		dimensioned = inSpace(e.sections.of(w), w.frame.Camera, w.cuts, img.Rect.Dx(), img.Rect.Dy())
	}
	pins, drawn := stick(w.pins, f, style.Scale, func(at mgl64.Vec3) string { return e.parts.of(f, at) })
	over := paint.Over{Pins: drawn}
	if w.moving {
		over.Before = e.places
	}
	for _, b := range w.taken {
		for k := range 2 {
			b.Low[k], b.High[k] = b.Low[k]*share, b.High[k]*share
		}
		over.Taken = append(over.Taken, b)
	}
	if len(dimensioned) == 0 && len(pins) == 0 {
		return nil
	}
	pinned, places := e.painter.Annotate(img, style, over, dimensioned...)
	e.places = places
	put(pins, pinned, float64(f.Width), float64(f.Height))
	return pins
}
