package rule

import (
	"errors"

	"underfall/geometry/source"
)

// CoreDrills are the sizes in which core drills come, mm, least first.
type CoreDrills struct {
	SizesMM []float64     `json:"sizesMM,omitempty"`
	Source  source.Source `json:"source,omitzero"`
}

// Next is the least size that makes a hole of a diameter; ok is false where none does.
func (d CoreDrills) Next(diameterMM float64) (mm float64, ok bool) {
	const slackMM = 1e-6
	for _, size := range d.SizesMM {
		if size >= diameterMM-slackMM {
			return size, true
		}
	}
	return 0, false
}

// For is the diameter that a hole comes out with: of the next size, or the diameter itself
// where no size is large enough.
func (d CoreDrills) For(diameterMM float64) float64 {
	if mm, ok := d.Next(diameterMM); ok {
		return mm
	}
	return diameterMM
}

func (d CoreDrills) check() error {
	if len(d.SizesMM) == 0 {
		return nil
	}
	const leastMM, greatestMM = 10, 500
	last := 0.0
	for _, mm := range d.SizesMM {
		if !(mm >= leastMM && mm <= greatestMM && mm > last) {
			return errors.New("core drills go up from 10 to 500 mm")
		}
		last = mm
	}
	return d.Source.Check()
}
