package material_test

import (
	"testing"

	"underfall/geometry/material"
)

// Weights of the layers of a floor, kg/m³, on the heavy side: tile 2300, beds
// and mortars 1600, hard foam with a mortar face 350, wet chipboard 650 (common
// practice, no source). What is never a layer weighs nothing here.
func TestDensities(t *testing.T) {
	for m, want := range map[material.Material]float64{
		material.Tile: 2300, material.TileBed: 1600, material.Adhesive: 1600, material.Membrane: 1600, material.Screed: 1600,
		material.BaseBoard: 350, material.FormerBody: 350, material.Deck: 650,
		material.Concrete: 0, material.Timber: 0, material.Masonry: 0, material.StudWall: 0, material.Plastic: 0, material.Metal: 0, material.Water: 0, "": 0,
	} {
		if got := m.DensityKGM3(); got != want {
			t.Errorf("%s weighs %v kg/m³, want %v", m, got, want)
		}
	}
}
