package rig

import (
	"math"

	"plumbhook/geom"
)

// BoxedObstacle is an Obstacle whose mesh is in boxes already. Its vertices and
// faces must be sound, as those of a solid are.
type BoxedObstacle struct {
	Name  string
	Faces geom.BoxTree
	Chord float64 // m, as in Obstacle
}

// ObstaclesOf is NewObstacles for meshes that need not be put into boxes again.
func ObstaclesOf(parts []BoxedObstacle) Obstacles {
	body := Obstacles{top: math.Inf(-1)}
	for _, p := range parts {
		body.parts = append(body.parts, obstacle{p.Name, p.Chord, p.Faces})
		body.top = max(body.top, p.Faces.Extent().Max[2]+p.Chord)
	}
	return body
}
