package theme

import "underfall/app/role"

// Role is what a colour is used for: see there.
type Role = role.Role

// The roles.
const (
	Paper         = role.Paper
	Sheet         = role.Sheet
	Raised        = role.Raised
	Sunk          = role.Sunk
	Ink           = role.Ink
	Caption       = role.Caption
	Line          = role.Line
	Edge          = role.Edge
	Press         = role.Press
	OnPress       = role.OnPress
	PressGround   = role.PressGround
	Sound         = role.Sound
	SoundGround   = role.SoundGround
	Tight         = role.Tight
	TightGround   = role.TightGround
	Stops         = role.Stops
	StopsGround   = role.StopsGround
	Unknown       = role.Unknown
	UnknownGround = role.UnknownGround
)
