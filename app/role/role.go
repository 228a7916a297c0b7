// Package role holds the colours of window, drawings and pictures by what they are used for.
package role

import "image/color"

// Role is what a colour is used for. Everything that is drawn in the window takes its
// colour by its role, so that light and dark stay one design.
type Role uint8

// The roles. A ground lies under the text or mark of its standing.
const (
	Paper         Role = iota // the window itself
	Sheet                     // sheets, fields, plates
	Raised                    // menus and questions over the window
	Sunk                      // what is worked out; what was moved
	Ink                       // text
	Caption                   // second text
	Line                      // rules between things
	Edge                      // edges of what can be pressed
	Press                     // what can be pressed, the selection, where it is cut; never a standing
	OnPress                   // text on it
	PressGround               // what is chosen or tried
	Sound                     // nothing stands against it
	SoundGround               //
	Tight                     // may not come out
	TightGround               //
	Stops                     // cannot be done so
	StopsGround               //
	Unknown                   // not known, assumed
	UnknownGround             //
	roleCount
)

// shades are a role's colours in the light and in the dark.
type shades struct{ light, dark uint32 }

// roles is the one table of the window's colours, as 0xrrggbb.
func roles() [roleCount]shades {
	return [roleCount]shades{
		Paper:         {0xF3F1EC, 0x16191C},
		Sheet:         {0xFFFFFF, 0x1F2428},
		Raised:        {0xF3F1EC, 0x2B3136},
		Sunk:          {0xEAE7E0, 0x121517},
		Ink:           {0x1F2429, 0xE9E6E0},
		Caption:       {0x575C61, 0xABB0B3},
		Line:          {0xCFC9BE, 0x3B4248},
		Edge:          {0x8D8A83, 0x7C848A},
		Press:         {0x8F4419, 0xF0A26E},
		OnPress:       {0xFFFFFF, 0x22150B},
		PressGround:   {0xF5E7DC, 0x3A2A1F},
		Sound:         {0x1B5E8A, 0x86BFE4},
		SoundGround:   {0xE2EDF4, 0x1B3040},
		Tight:         {0x855600, 0xE8B95C},
		TightGround:   {0xF8ECD0, 0x352A12},
		Stops:         {0xA12328, 0xF4948C},
		StopsGround:   {0xF8E3E0, 0x3F2121},
		Unknown:       {0x5C5670, 0xBCB6D2},
		UnknownGround: {0xECEAF1, 0x2B2936},
	}
}

// In is the colour of a role in the light or in the dark.
func (r Role) In(dark bool) color.NRGBA {
	s := roles()[r]
	v := s.light
	if dark {
		v = s.dark
	}
	return color.NRGBA{uint8(v >> 16), uint8(v >> 8), uint8(v), 255}
}
