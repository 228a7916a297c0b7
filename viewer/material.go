package viewer

import (
	"fmt"
	"image/color"
	"math"
	"strconv"

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

// surfaceOf is how a part looks when it is finished.
func surfaceOf(p assembly.Part, style job.Style) surface {
	s := surface{colour: MaterialColour(p.Material), roughness: 0.75, alpha: 1}
	switch {
	case p.Finish != nil:
		s.colour = parseColour(p.Finish.Colour)
		s.roughness = sheenRoughness(p.Finish.Sheen)
	case p.Wall > 0 && p.Stage == buildup.StageBare:
		s.colour = parseColour("#e9e4da") // plaster; what it is made of shows where it is cut
		s.roughness = 0.95
	case p.Material == material.Metal:
		return metalSurface(style.Metal)
	case p.Material == material.Plastic:
		s.roughness = 0.35
	case p.Material == material.Water:
		s.roughness = 0.05
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

// metalSurface is a metal's reflectance: chrome and brass near to measured
// values quoted in handbooks of rendering; from memory.
func metalSurface(m job.MetalKind) surface {
	switch m {
	case job.MetalChrome:
		return surface{[3]float32{0.62, 0.63, 0.64}, 0.10, 1, 1}
	case job.MetalBrass:
		return surface{[3]float32{0.80, 0.60, 0.30}, 0.26, 1, 1}
	case job.MetalBlack:
		return surface{[3]float32{0.022, 0.022, 0.024}, 0.42, 0, 1}
	}
	return surface{[3]float32{0.56, 0.57, 0.58}, 0.32, 1, 1}
}

// materialHex is the colour a material is drawn in. The set is Underfall's own.
func materialHex(m material.Material) string {
	switch m {
	case material.Concrete:
		return "#b4b2ad"
	case material.Timber:
		return "#c99a5b"
	case material.Deck:
		return "#b98a52"
	case material.Masonry:
		return "#c9b3a3"
	case material.StudWall:
		return "#dcd6cb"
	case material.Adhesive:
		return "#8f8d88"
	case material.BaseBoard:
		return "#a9b6d6"
	case material.FormerBody:
		return "#c9b4d4"
	case material.Membrane:
		return "#1f7a6c"
	case material.TileBed:
		return "#a7a29a"
	case material.Tile:
		return "#6f8583"
	case material.Screed:
		return "#cfc6b8"
	case material.Plastic:
		return "#5b5f66"
	case material.Metal:
		return "#aab2b8"
	case material.Water:
		return "#5aa9dd"
	}
	return "#999999"
}

// MaterialColour is the colour of a material in linear light.
func MaterialColour(m material.Material) [3]float32 { return parseColour(materialHex(m)) }

// DisplayColour is the colour of a material on screen and paper.
func DisplayColour(m material.Material) color.RGBA {
	var out color.RGBA
	if _, err := fmt.Sscanf(materialHex(m), "#%02x%02x%02x", &out.R, &out.G, &out.B); err != nil {
		return color.RGBA{0x99, 0x99, 0x99, 255}
	}
	out.A = 255
	return out
}

// parseColour turns #rrggbb into linear light; grey when it is no colour.
func parseColour(hex string) [3]float32 {
	out := [3]float32{0.3, 0.3, 0.3}
	if len(hex) != 7 {
		return out
	}
	for i := range 3 {
		v, err := strconv.ParseUint(hex[1+2*i:3+2*i], 16, 8)
		if err != nil {
			return [3]float32{0.3, 0.3, 0.3}
		}
		out[i] = float32(math.Pow(float64(v)/255, 2.2))
	}
	return out
}

// untoned is the linear light that comes out of toning as a linear colour: the
// shader's knee backwards.
func untoned(c [3]float32) [3]float32 {
	const knee = 0.72
	m := max(c[0], c[1], c[2])
	if m <= knee {
		return c
	}
	// Near white the way back has no end; what is this bright stays grey.
	y := min(float64(m), 0.985)
	x := knee - (1-knee)*math.Log(1-(y-knee)/(1-knee))
	k := float32(x / y)
	return [3]float32{c[0] * k, c[1] * k, c[2] * k}
}
