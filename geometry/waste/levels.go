package waste

import "math"

// DropMM is how far the invert has fallen from the outlet to a distance along
// the run, when the free pieces fall at the given gradient. It is affine in
// the gradient: that is what makes the least raise a closed form.
func (r *Run) DropMM(atMM, gradient float64) float64 {
	drop := 0.0
	for i := range r.Pieces {
		p := &r.Pieces[i]
		within := math.Min(atMM, p.ToMM) - p.FromMM
		if within < 0 || p.Kind == Drop {
			break
		}
		switch {
		case p.Kind == FallingPiece:
			drop += within * p.OwnSlope
		case p.Tapers() && p.LengthMM() > 0:
			drop += within*gradient + p.stepMM()*within/p.LengthMM()
		default:
			drop += within * gradient
		}
	}
	return drop
}

// stepMM is what a reducer takes off the invert: nothing the right way round;
// reversed, crowns are level and the invert moves by the difference in bores
// (negative: it rises, a backfall).
func (p Piece) stepMM() float64 {
	if !p.Tapers() || !p.Reversed {
		return 0
	}
	return p.After.BoreMM - p.Pipe.BoreMM
}

// GradientTo is the gradient of the free pieces that brings the invert from
// one level at the outlet to another at the exit; ok is false when there is no
// free length to do it in.
func (r *Run) GradientTo(outletInvertMM, exitInvertMM float64) (gradient float64, ok bool) {
	fixed := r.DropMM(r.ExitAtMM, 0)
	free := r.DropMM(r.ExitAtMM, 1) - fixed
	if free < 1 {
		return 0, false
	}
	return (outletInvertMM - exitInvertMM - fixed) / free, true
}

// WithLevels is the run with its inverts worked out from the outlet on.
func (r Run) WithLevels(outletInvertMM, gradient float64) Run {
	r.Pieces = append([]Piece(nil), r.Pieces...)
	r.Level(outletInvertMM, gradient)
	return r
}

// Level gives the run's own pieces their inverts, from the outlet on.
func (r *Run) Level(outletInvertMM, gradient float64) {
	for i := range r.Pieces {
		p := &r.Pieces[i]
		p.FromInvertMM = outletInvertMM - r.DropMM(p.FromMM, gradient)
		p.ToInvertMM = outletInvertMM - r.DropMM(p.ToMM, gradient)
	}
}

// InvertAt is the invert at a distance along a run that has levels.
func (r *Run) InvertAt(atMM float64) float64 {
	for i := range r.Pieces {
		p := &r.Pieces[i]
		if atMM <= p.ToMM && p.LengthMM() > 0 {
			t := math.Max(0, (atMM-p.FromMM)/p.LengthMM())
			return p.FromInvertMM + (p.ToInvertMM-p.FromInvertMM)*t
		}
	}
	if n := len(r.Pieces); n > 0 {
		return r.Pieces[n-1].ToInvertMM
	}
	return 0
}
