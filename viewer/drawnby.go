package viewer

import (
	"underfall/geometry/message"
	"underfall/viewer/trace"
)

// DrawnBy says what draws the pictures, and why that takes longer than it could where another way is taken.
func (r *Renderer) DrawnBy() []message.Message {
	return drawnBy(r.Device, r.found, r.resets)
}

// drawnBy is DrawnBy of a device, of what its driver can do, and of how often it was reset.
func drawnBy(device string, found trace.Abilities, resets int) []message.Message {
	out := []message.Message{message.Of("drawn-by.device", message.Name("device", device))}
	software := isSoftware(device)
	for _, c := range []struct {
		so bool
		id message.ID
	}{
		{software, "drawn-by.no-card"},
		{!software && !found.Computes, "drawn-by.no-computing"},
		{!found.Blends && (software || !found.Computes), "drawn-by.no-blending"},
		{!found.Filters, "drawn-by.no-filtering"},
	} {
		if c.so {
			out = append(out, message.Of(c.id))
		}
	}
	if resets > 0 {
		out = append(out, message.Of("drawn-by.resets", message.No("times", resets)))
	}
	return out
}
