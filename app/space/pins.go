package space

import (
	"image/color"
	"math"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"github.com/go-gl/mathgl/mgl64"
	"underfall/app/paint"
	"underfall/app/sight"
	"underfall/app/theme"
	"underfall/geometry"
	"underfall/geometry/buildup"
	"underfall/geometry/message"
	"underfall/geometry/placing"
	"underfall/geometry/rule"
	"underfall/viewer"
)

// pin is a place of the model that is to be marked.
type pin struct {
	at mgl64.Vec3
	// finding is what is found there; nil where something else was gone to.
	finding *rule.Finding
	// says is all that is said of it; titled tells that its label is wanted, and not just its disc.
	says        string
	titled      bool
	chosen      bool
	sign        string
	ink, ground color.RGBA
}

// stuck is a pin as it stands in the picture that is shown, in shares of its width and height: several
// that would lie on each other are one.
type stuck struct {
	of          []pin
	disc, label placing.Box
	hidden      bool
}

// pins are the places that are marked in a picture, those first that matter most: what was gone to, what
// stops the job or is not known, and all else that is found where that is asked for.
func (v *View) pins() (out []pin) {
	s := v.sight
	if v.Plain || len(v.strips.others) > 0 || s.Pressing == sight.PressingMeasure {
		return nil
	}
	cards := v.result.Cards()
	marked := false
	for _, c := range cards {
		for k, p := range c.Places {
			chosen := s.Mark != nil && s.Marked == p.Key()
			severity := p.Rule.Severity
			if severity != rule.Stop && severity != rule.NotKnown && !s.AllPins && !chosen {
				continue
			}
			marked = marked || chosen
			role, _ := theme.OfStanding(geometry.StandingOf(severity))
			f := p.Finding
			out = append(out, pin{at: f.Measurement.At, finding: &f, says: s.Beside(sight.LabelOf(f), v.result), titled: k == 0 || chosen, chosen: chosen,
				sign: signOf(severity), ink: color.RGBA(v.theme.Role(role)), ground: color.RGBA(v.theme.Role(theme.Sheet))})
		}
	}
	if s.Mark != nil && !marked {
		out = append(out, pin{at: s.Mark.At, says: s.Beside(s.Mark.Label, v.result), titled: true, chosen: true,
			ink: color.RGBA(v.theme.Role(theme.Press)), ground: color.RGBA(v.theme.Role(theme.Sheet))})
	}
	slices.SortStableFunc(out, func(a, b pin) int {
		weight := func(p pin) int {
			switch {
			case p.chosen:
				return 0
			case p.titled:
				return 1
			}
			return 2
		}
		return weight(a) - weight(b)
	})
	return out
}

// signOf is what stands in the disc of something found: it is told by more than its colour.
func signOf(s rule.Severity) string {
	switch s {
	case rule.Stop:
		return "!"
	case rule.NotKnown:
		return "?"
	}
	return ""
}

// taken is what lies over the picture, which is so many pixels a point: grips and the legend.
func (v *View) taken(scale float64) (out []placing.Box) {
	put := func(at fyne.Position, s fyne.Size) {
		x, y := float64(at.X)*scale, float64(at.Y)*scale
		out = append(out, placing.Box{Low: placing.Point{x, y}, High: placing.Point{x + float64(s.Width)*scale, y + float64(s.Height)*scale}})
	}
	v.placeGrips()
	for _, g := range v.grips {
		if g.Visible() {
			put(g.Position(), g.Size())
		}
	}
	v.placeLegend()
	if plate := v.legend.plate; plate.Visible() {
		put(plate.Position(), plate.Size())
	}
	return out
}

// rimShare is how near to the picture's rim the disc of what was gone to stays that lies out of it.
const rimShare = 0.05

// stick finds where pins come to stand in a frame, in its pixels, with a scale of so many to a point:
// one that lies on another, worthier one is put with that. What lies out of the picture is left out, but
// for what was gone to, which stays at its rim as what cannot be seen. Of tells which part a place is of.
func stick(pins []pin, f viewer.Frame, scale float64, of func(mgl64.Vec3) string) (out []stuck, drawn []paint.Pin) {
	const apart = 2*paint.PinRadius + 2
	aspect := float64(f.Width) / float64(f.Height)
	for _, p := range pins {
		at, hidden := f.Place(p.at, of(p.at))
		x, y, ok := f.Camera.Project(at, aspect)
		if !ok {
			continue
		}
		if in := x > 0 && x < 1 && y > 0 && y < 1; !in {
			if !p.chosen {
				continue
			}
			hidden = true
			x, y = math.Max(rimShare, math.Min(1-rimShare, x)), math.Max(rimShare, math.Min(1-rimShare, y))
		}
		here := placing.Point{x * float64(f.Width), y * float64(f.Height)}
		with := slices.IndexFunc(drawn, func(o paint.Pin) bool {
			return math.Hypot(o.At[0]-here[0], o.At[1]-here[1]) < apart*scale
		})
		if with >= 0 {
			out[with].of = append(out[with].of, p)
			out[with].hidden = out[with].hidden && hidden
			drawn[with].Hidden = out[with].hidden
			continue
		}
		out = append(out, stuck{of: []pin{p}, hidden: hidden})
		drawn = append(drawn, paint.Pin{At: here, Sign: p.sign, Ink: p.ink, Ground: p.ground, Hidden: hidden, Chosen: p.chosen})
	}
	for i := range out {
		if out[i].of[0].titled {
			drawn[i].Label = label(out[i].of)
		}
	}
	return out, drawn
}

// parts are the parts that places are of, as long as the scene and the stage are the same.
type parts struct {
	scene *viewer.Scene
	stage buildup.Stage
	at    map[mgl64.Vec3]string
}

// of is the part that a place of a frame is of; empty for none.
func (p *parts) of(f viewer.Frame, at mgl64.Vec3) string {
	if p.scene != f.Scene || p.stage != f.Stage {
		p.scene, p.stage, p.at = f.Scene, f.Stage, map[mgl64.Vec3]string{}
	}
	part, known := p.at[at]
	if !known {
		part, _ = f.At(at)
		p.at[at] = part
	}
	return part
}

// label is what pins that lie on each other say beside their disc: the first of them, and of how many.
func label(of []pin) string {
	said := map[string]bool{}
	for _, p := range of {
		said[p.says] = true
	}
	if more := len(said) - 1; more > 0 {
		return theme.Word("pin.with-more", message.Name("label", of[0].says), message.N("n", more))
	}
	return of[0].says
}

// put takes where pins came to stand in a picture of a size in pixels.
func put(pins []stuck, at []paint.Pinned, width, height float64) {
	share := func(b placing.Box) placing.Box {
		return placing.Box{Low: placing.Point{b.Low[0] / width, b.Low[1] / height}, High: placing.Point{b.High[0] / width, b.High[1] / height}}
	}
	for i := range pins {
		pins[i].disc, pins[i].label = share(at[i].Disc), share(at[i].Label)
	}
}

// pinUnder is the pin whose disc, or else whose label, is under a place of the widget; nil for none.
func (v *View) pinUnder(p fyne.Position) *stuck {
	s := v.Size()
	at := placing.Point{float64(p.X / s.Width), float64(p.Y / s.Height)}
	high := v.theme.High(2 * paint.PinRadius) // of what is to be pressed
	for i := range v.stuck {
		b := v.stuck[i].disc
		middle := placing.Point{(b.Low[0] + b.High[0]) / 2 * float64(s.Width), (b.Low[1] + b.High[1]) / 2 * float64(s.Height)}
		if math.Hypot(middle[0]-float64(p.X), middle[1]-float64(p.Y)) <= float64(high)/2 {
			return &v.stuck[i]
		}
	}
	for i := range v.stuck {
		if b := v.stuck[i].label; b.Low[0] <= at[0] && at[0] <= b.High[0] && b.Low[1] <= at[1] && at[1] <= b.High[1] {
			return &v.stuck[i]
		}
	}
	return nil
}

// press goes to what a pin marks; of several to the one after that which was gone to last.
func (v *View) press(s *stuck) {
	at := slices.IndexFunc(s.of, func(p pin) bool { return p.chosen })
	for k := range s.of {
		if p := s.of[(at+1+k)%len(s.of)]; p.finding != nil {
			if v.Go != nil {
				v.Go(*p.finding)
			}
			return
		}
	}
}

// says is all that a pin marks, for the line that tells what the pointer is on.
func (s *stuck) says() string {
	var said []string
	for _, p := range s.of {
		if !slices.Contains(said, p.says) {
			said = append(said, p.says)
		}
	}
	return strings.Join(said, " · ")
}
