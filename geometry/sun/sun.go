// Package sun says where the sun stands in the sky.
package sun

import (
	"math"
	"strings"
)

// Place is where the sun is seen: degrees over the horizon, below nought while it is down, and degrees from north over east.
type Place struct{ HighDeg, FromNorthDeg float64 }

// Equinox is where the sun stands on the day that is as long as its night, everywhere alike but for how steep it rises;
// hours are by the sun, which is highest at 12.
func Equinox(hour, latitudeDeg float64) Place {
	const degAnHour, noon = 15, 12
	return seen(radians((hour-noon)*degAnHour), 0, radians(latitudeDeg))
}

// seen turns hour angle and declination into what is seen from a latitude, all in radians.
func seen(hour, declination, latitude float64) Place {
	sh, ch := math.Sincos(hour)
	sd, cd := math.Sincos(declination)
	sl, cl := math.Sincos(latitude)
	north, east, high := sd*cl-cd*ch*sl, -cd*sh, sd*sl+cd*ch*cl
	from := math.Atan2(east, north) * 180 / math.Pi
	if from < 0 {
		from += 360
	}
	return Place{math.Atan2(high, math.Hypot(north, east)) * 180 / math.Pi, from}
}

func radians(deg float64) float64 { return deg * math.Pi / 180 }

// LatitudeDeg is how far north of the equator most people of a region live, by the region of a job's rules; of one
// that is not known, that of the middle of Europe. General knowledge, no source.
func LatitudeDeg(region string) float64 {
	country, _, _ := strings.Cut(region, "-")
	switch country {
	case "UK", "IE":
		return 53
	case "US":
		return 38
	case "AU":
		return -34
	case "NZ":
		return -40
	}
	return 50
}
