package space

import (
	"context"
	"image"
	"math"

	"underfall/geometry"
	"underfall/geometry/buildup"
	"underfall/geometry/message"
	"underfall/viewer"
)

// stillSamples is how often a still is refined: clean on any screen. Half as many again bring flat faces from one and a half
// steps of 255 to one and a quarter of what very many would give, and take half as long again.
const stillSamples = 32

// draftSamples is how often a draft is.
const draftSamples = 4

// TurnSteps is into how many pictures a turn is divided.
const TurnSteps = 36

// Shot is a still, or a turn of several, of what was looked at when it was made.
type Shot struct {
	frames []viewer.Frame // their cut faces still to be made
	result geometry.Result
	studio *viewer.Studio
}

// Drawn tells whether there is a picture at all.
func (v *View) Drawn() bool { return v.frame.Scene != nil }

// Shot is a still of the picture as it is looked at, in pixels, or a turn of them all round; clear
// leaves the background out.
func (v *View) Shot(size image.Point, clear, turn bool) Shot {
	f := v.now()
	f.Width, f.Height, f.Transparent, f.Chosen = size.X, size.Y, clear, ""
	f.Camera = v.framedAs(float64(size.X) / float64(size.Y))
	s := Shot{frames: []viewer.Frame{f}, result: v.result, studio: v.engine.studio}
	if turn {
		s.frames = viewer.Turntable(f, TurnSteps)
	}
	return s
}

// framedAs is the camera with as much in a picture of another shape as in the one that is looked at, where that is narrower: from its
// ready-made place anew, from a place of one's own further away.
func (v *View) framedAs(aspect float64) viewer.Camera {
	c, narrow := v.sight.Camera, math.Min(1, aspect)
	if narrow >= math.Min(1, v.aspect()) {
		return c
	}
	if v.sight.View != "" {
		return v.cameraIn(v.sight.View, aspect)
	}
	further := c
	further.DistanceMM *= math.Min(1, v.aspect()) / narrow
	return v.keep(c, further)
}

// Photograph is a still of the finished room as it is photographed, in the light that it is looked at in, wet or dry.
func (v *View) Photograph(size image.Point) Shot {
	f := v.now()
	f.Width, f.Height, f.Chosen, f.Dark = size.X, size.Y, "", false
	f.Look, f.Stage, f.Caps, f.Apart, f.Arriving = viewer.LookFinished, buildup.StageTile, nil, 0, 0
	f.Camera = viewer.FreeView(f.Scene, viewer.ViewPhoto, v.result, float64(size.X)/float64(size.Y))
	return Shot{frames: []viewer.Frame{f}, result: v.result, studio: v.engine.studio}
}

// Finished tells whether it is one picture of the finished room, whole and before its background.
func (s Shot) Finished() bool {
	f := s.frames[0]
	return len(s.frames) == 1 && f.Look == viewer.LookFinished && f.Stage == buildup.StageTile && f.Caps == nil && !f.Transparent && f.Apart == 0
}

// Alike tells whether another is of the same room in the same light, wet or dry as that, wherever it is looked at from.
func (s Shot) Alike(o Shot) bool {
	a, b := s.frames[0], o.frames[0]
	return a.Scene == b.Scene && a.Light == b.Light && a.Wet == b.Wet && a.Dark == b.Dark
}

// Samples is how often each point of it is followed.
func (s Shot) Samples() int { return stillSamples }

// Pictures are how many it is of.
func (s Shot) Pictures() int { return len(s.frames) }

// Draw draws it, on whatever goroutine it is called: progress is told the share that is done, take
// gets picture by picture. The fault is what the pictures leave out; nothing for none.
func (s Shot) Draw(ctx context.Context, progress func(share float64), take func(i int, img *image.RGBA) error) (fault message.Message, err error) {
	frames := capped(s.frames, s.result)
	return frames[0].Fault(), s.studio.Stills(ctx, frames, stillSamples, progress, take)
}

// Draft draws the first picture of it quickly, as good as it is at once, on whatever goroutine it is called.
func (s Shot) Draft(ctx context.Context) (img *image.RGBA, err error) {
	err = s.studio.Stills(ctx, capped(s.frames[:1], s.result), draftSamples, func(float64) {}, func(_ int, drawn *image.RGBA) error {
		img = drawn
		return nil
	})
	return img, err
}

// capped are frames with the cut faces of a result, all cut in the same way.
func capped(frames []viewer.Frame, r geometry.Result) []viewer.Frame {
	out := append([]viewer.Frame(nil), frames...)
	if len(out) > 0 && out[0].Caps != nil {
		caps := viewer.NewCaps(r, out[0].Stage, viewer.HatchMM, out[0].Caps.Cuts...)
		for i := range out {
			out[i].Caps = caps
		}
	}
	return out
}
