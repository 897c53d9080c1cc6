package sling

import (
	"math"

	"plumbhook/units"
)

const pi = math.Pi

func sin(degrees float64) float64 { return math.Sin(units.Radians(degrees)) }

func degrees(d float64) units.FromHorizontal { return units.FromHorizontal(units.Radians(d)) }

// pounds and kilograms give the force that so much weighs.
func pounds(lb float64) units.Force { return (units.Mass(lb) * units.Pound).Weight() }

func kilograms(kg float64) units.Force { return units.Mass(kg).Weight() }

func fahrenheit(f float64) *float64 { c := (f - 32) / 1.8; return &c }

func celsius(c float64) *float64 { return &c }

// kind is a place in which nothing speaks against any family.
func kind() Surroundings {
	return Surroundings{Temperature: celsius(20), Chemicals: []string{"none"}, ChemicalsStated: true, EdgesNone: true, EdgesStated: true}
}

// one is a single vertical leg with a mass on it.
func one(rules Rules, load units.Force) Need {
	return Need{Rules: rules, Weight: load, Surroundings: kind(), Legs: []Leg{{Name: "A", Tension: load, Angle: degrees(90), Length: 3, Hitch: vertical}}}
}

// find returns the verdict on a family.
func find(a Answer, family, material string) Verdict {
	for _, v := range a.Families {
		if v.Family == family && v.Material == material {
			return v
		}
	}
	return Verdict{Use: "no such family: " + family + ", " + material}
}
