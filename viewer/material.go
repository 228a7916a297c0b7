package viewer

import (
	"image/color"
	"math"

	"underfall/geometry/assembly"
	"underfall/geometry/buildup"
	"underfall/geometry/job"
	"underfall/geometry/material"
)

// surface is how a part takes the light.
type surface struct {
	colour    [3]float32 // in linear light; of metal, its reflectance
	roughness float32
	metal     float32
	alpha     float32
}

// plaster is the colour of plastered and painted walls, as #rrggbb.
const plaster = "#eceae5"

// surfaceOf is how a part looks when it is finished.
func surfaceOf(p assembly.Part, style job.Style) surface {
	s := surface{colour: materialColour(p.Material), roughness: float32(p.Material.Roughness()), alpha: 1}
	switch {
	case p.Finish != nil:
		s.colour = parseColour(p.Finish.Colour)
		s.roughness = sheenRoughness(p.Finish.Sheen)
	case p.Wall > 0 && p.Stage == buildup.StageBare:
		s.colour = parseColour(plaster) // what it is made of shows where it is cut
		s.roughness = 0.95
	case p.Material == material.Metal:
		return metalSurface(style.Metal)
	}
	return s
}

func sheenRoughness(s job.Sheen) float32 {
	switch s {
	case job.SheenMatt:
		return 0.75
	case job.SheenGloss:
		return 0.12
	}
	return 0.38
}

// metalSurface is how a metal takes the light.
func metalSurface(m job.MetalKind) surface {
	look := m.Look()
	s := surface{colour: linear(look.Colour), roughness: float32(look.Roughness), alpha: 1}
	if look.Bare {
		s.metal = 1
	}
	return s
}

// materialColour is the colour of a material in linear light.
func materialColour(m material.Material) [3]float32 { return linear(m.Colour()) }

// parseColour turns #rrggbb into linear light; grey when it is no colour.
func parseColour(hex string) [3]float32 {
	c, ok := material.ParseColour(hex)
	if !ok {
		return [3]float32{0.3, 0.3, 0.3}
	}
	return linear(c)
}

// linear is a colour of the screen in linear light.
func linear(c color.RGBA) [3]float32 {
	light := func(v uint8) float32 { return float32(math.Pow(float64(v)/255, 2.2)) }
	return [3]float32{light(c.R), light(c.G), light(c.B)}
}
