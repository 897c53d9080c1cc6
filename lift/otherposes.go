package lift

import (
	"fmt"
	"strings"

	"plumbhook/geom"
	"plumbhook/rig"
)

// OtherPose is another pose near the attitude drawn in which the load can come
// to rest, at the planning weight and the best CG.
type OtherPose struct {
	TiltDeg float64  `json:"tilt_deg"`
	Up      geom.Vec `json:"up"` // in the load's axes
	Slack   []string `json:"slack"`
	Tension Forces   `json:"tension_kn"`
}

// otherPoses lists the other poses in which the load stays, warns of them, and
// lets each leg be sized for what it carries there.
func (p *plan) otherPoses(f *Hanging, r rig.Rig, best rig.Hang, h *Header) {
	if !best.Stable {
		return // that it does not stay where it hangs has been said
	}
	for _, o := range r.OtherPoses(best) {
		pose := OtherPose{TiltDeg: degrees(o.Tilt()), Up: p.stance.own(o.Up), Slack: []string{}, Tension: p.forces(o.Tension)}
		for i, pick := range p.picks {
			if o.Slack(i) {
				pose.Slack = append(pose.Slack, pick.Name)
			}
			f.raise(i, o.Greatest[i]/1000*f.SizingKg/f.PlanningKg, "in another pose in which the load can come to rest, at the sizing weight")
		}
		f.Others = append(f.Others, pose)
		loose := ""
		if len(pose.Slack) > 0 {
			loose = ", leg " + strings.Join(pose.Slack, " and ") + " loose"
		}
		h.warn("other-pose", fmt.Sprintf("the load can also come to rest %.1f° out of %s%s: a knock decides which", pose.TiltDeg, p.level(), loose),
			"change the legs' lengths so that it has one place to rest")
	}
}
