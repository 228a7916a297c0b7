package job

import "image/color"

// MetalLook is how a metal takes the light, in pictures and on paper.
type MetalLook struct {
	// Colour is that of a plate of it in even light, as a screen shows it.
	Colour color.RGBA
	// Roughness is 0 for a mirror to 1 for chalk.
	Roughness float64
	// Bare metal mirrors in its own colour; what is not bare is coated.
	Bare bool
}

// Look is the metal's: chrome and brass near to measured values quoted in handbooks of rendering; from memory.
func (m MetalKind) Look() MetalLook {
	switch m {
	case MetalChrome:
		return MetalLook{color.RGBA{0xcd, 0xcf, 0xd0, 0xff}, 0.10, true}
	case MetalBrass:
		return MetalLook{color.RGBA{0xe6, 0xca, 0x94, 0xff}, 0.26, true}
	case MetalBlack:
		return MetalLook{color.RGBA{0x2d, 0x2d, 0x2f, 0xff}, 0.42, false}
	}
	return MetalLook{color.RGBA{0xc4, 0xc6, 0xc7, 0xff}, 0.32, true}
}
