package joining

import "math"

// Zone is how a housing is heated. The zero Zone is the whole casting, evenly.
type Zone struct {
	Heated  float64 // diameter of what is hot about the bore
	Casting float64 // diameter of the cold casting around it
	Web     float64 // thickness of the cold web that the boss stands on; 0: the casting is as thick as the boss
	Length  float64 // of the boss
}

// webs are what the bore of a boss gets in the middle of its web, where it gets the least, by
// the thickness of the web over the length of the boss: finite elements, axisymmetric, mesh
// halved, iron, a boss 1.5 to 1.8 times its bore at one temperature and the web cold; the
// least of the cases of each thickness. Between them in a straight line.
var webs = []struct{ thick, share float64 }{{0, 1}, {0.1, 0.64}, {0.2, 0.39}, {0.4, 0.14}}

// Opens is the share of the free growth α d ΔT that a bore of diameter d really gets. A bore in
// a flat casting grows by the mean of the rise over the whole area, wherever the heat sits
// about the axis (Timoshenko and Goodier, Theory of Elasticity, thermal stress in a disk with a
// free rim; finite elements agree to three figures):
//
//	share = (b² − d²) / (c² − d²)     b what is hot, c the casting
//
// A boss that stands proud of a thin web gets more; how much, at the web, by finite elements.
func (z Zone) Opens(d float64) float64 {
	if z.Heated <= 0 {
		return 1
	}
	flush := 1.0
	if z.Casting > z.Heated {
		flush = max(0, z.Heated*z.Heated-d*d) / (z.Casting*z.Casting - d*d)
	}
	if z.Web <= 0 || z.Length <= 0 || z.Web >= z.Length {
		return flush
	}
	thick := z.Web / z.Length
	for i := 1; i < len(webs); i++ {
		a, b := webs[i-1], webs[i]
		if thick <= b.thick {
			return max(flush, a.share+(b.share-a.share)*(thick-a.thick)/(b.thick-a.thick))
		}
	}
	last := webs[len(webs)-1]
	return max(flush, last.share*(1-thick)/(1-last.thick))
}

// Heat that a metal holds, J/(mm³ K), over the temperatures of a bath: ρ c of about 7850 × 400
// kg/m³ and J/(kg K) for steel and bronze, 2700 × 800 for aluminum; from memory.
func (m Metal) holds() float64 {
	if m == Aluminum {
		return 2.16e-3
	}
	return 3.1e-3
}

// Film of still air on a cold or hot part, W/(mm² K): convection, radiation and frost, 10 to 20
// W/(m² K); and what air conducts, W/(mm K). From memory.
const (
	filmOfAir   = 15e-6
	airConducts = 22e-6
	facesInOpen = 2
)

// InAir is how long a sleeve of wall t takes in the open to come so many K nearer to the
// room, from so many K away: τ = ρ c t / (2 h), both faces. Good to a factor of two.
func (m Metal) InAir(wall, warmer, away float64) float64 {
	if warmer <= 0 || warmer >= away {
		return 0
	}
	return m.holds() * wall / (facesInOpen * filmOfAir) * math.Log(away/(away-warmer))
}

// Grips is how long a sleeve of wall t stays free in its seat: clearance on diameter when
// they meet, and how much more the sleeve grows, on diameter, until it is as warm as the
// housing. The heat goes through the air between them, c/2 thick at first and nothing in the
// end, c/4 in the mean: τ = ρ c t gap / k. It is over several times sooner where metal touches
// metal. 0: it does not grip by this alone.
func (m Metal) Grips(wall, clearance, grows float64) float64 {
	if clearance <= 0 || grows <= clearance {
		return 0
	}
	return m.holds() * wall * clearance / 4 / airConducts * math.Log(grows/(grows-clearance))
}
