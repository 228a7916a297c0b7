package clash_test

import (
	"fmt"

	"github.com/go-gl/mathgl/mgl64"
	"underfall/geometry/clash"
	"underfall/geometry/plan"
	"underfall/geometry/solid"
)

// How much room is there between a 50 mm pipe and the joist beside it? The joist
// is 47 wide about y = 0 and the pipe's axis lies 60 off it: 60 − 23.5 − 25.
func ExampleCylinder_Gap() {
	joist := clash.NewPrism(plan.Ring{{0, -23.5}, {2000, -23.5}, {2000, 23.5}, {0, 23.5}}, solid.Plane{Level: -200}, solid.Plane{Level: 0})
	pipe := clash.Cylinder{From: mgl64.Vec3{500, 60, -100}, To: mgl64.Vec3{1500, 60, -100}, RadiusMM: 25}
	fmt.Println(pipe.Gap(joist).GapMM, "mm apart")
	// Ten over the joist's top, laid across it: 25 − 10 deep in it.
	pipe = clash.Cylinder{From: mgl64.Vec3{1000, -300, 10}, To: mgl64.Vec3{1000, 300, 10}, RadiusMM: 25}
	fmt.Println(pipe.Gap(joist).GapMM, "mm apart")
	// Output:
	// 11.5 mm apart
	// -15 mm apart
}
