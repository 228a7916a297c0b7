package rule

import (
	"errors"
	"fmt"
	"maps"
	"slices"

	"underfall/geometry/source"
	"underfall/geometry/unit"
)

// FloorLoad is the imposed load that the floor of a dwelling is reckoned with, from
// half to ten kN/m², and the one at a single place up to ten kN; nothing where a region has
// none.
type FloorLoad struct {
	KNM2    float64       `json:"kNM2"`
	PointKN float64       `json:"pointKN,omitempty"`
	Source  source.Source `json:"source"`
}

// checkLoad looks at the load of floors, which every region has, or its parent, and no
// other pack.
func (p Pack) checkLoad() error {
	const least, greatest = 0.5, 10 // kN/m²
	if p.Parent != "" && p.FloorLoad == (FloorLoad{}) {
		return nil
	}
	if p.Region == CommonRegion {
		if p.FloorLoad != (FloorLoad{}) {
			return errors.New("the load of floors is each region's own")
		}
		return nil
	}
	if p.FloorLoad.KNM2 < least || p.FloorLoad.KNM2 > greatest {
		return fmt.Errorf("the load of floors must be from %v to %v kN/m²", least, greatest)
	}
	if p.FloorLoad.PointKN < 0 || p.FloorLoad.PointKN > greatest {
		return fmt.Errorf("the load at one place must be from 0 to %v kN", greatest)
	}
	if err := p.FloorLoad.Source.Check(); err != nil {
		return fmt.Errorf("the load of floors: %w", err)
	}
	return nil
}

// withLoad are the rules with the load of floors as a figure of those that it counts for.
func (l FloorLoad) withLoad(rules []Rule) []Rule {
	out := slices.Clone(rules)
	for i := range out {
		switch r := &out[i]; r.Quantity {
		case "joist.bending-share", "joist.shear-share", "joist.bearing-share", "joist.stiffness", "joist.final-stiffness":
			figures := maps.Clone(r.Figures)
			if figures == nil {
				figures = map[string]Figure{}
			}
			figures["load"] = Figure{l.KNM2, unit.Load}
			r.Figures = figures
		}
	}
	return out
}
