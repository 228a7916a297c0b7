package sight

import (
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"underfall/geometry/message"
)

// Distance tells a distance by its level and upright parts, not negative, and the
// fall when it has both. What lies rather than stands is told as lengths along the floor are.
func Distance(levelMM, uprightMM float64) message.Message {
	straight := message.MM("straight", math.Hypot(levelMM, uprightMM))
	if levelMM > uprightMM {
		straight = message.InFeet(straight)
	}
	if levelMM <= 0.5 || uprightMM <= 0.05 {
		return message.Of("distance", straight)
	}
	return message.Of("distance.falling", straight, message.Along("level", levelMM), message.MM("upright", uprightMM),
		message.Slope("fall", uprightMM/levelMM))
}

// PlaceMeasure puts the words of a measured distance, on their box, beside the
// middle of its line, inside a picture of the given size.
func PlaceMeasure(box *canvas.Rectangle, label *canvas.Text, middle fyne.Position, picture fyne.Size) {
	size := label.MinSize()
	at := middle.AddXY(8, -24)
	at.X = max(4, min(at.X, picture.Width-size.Width-4))
	at.Y = max(4, at.Y)
	box.Move(at.SubtractXY(3, 1))
	box.Resize(size.AddWidthHeight(6, 2))
	label.Move(at)
	label.Resize(size)
}
