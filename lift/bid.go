package lift

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"runtime"
	"sort"

	"plumbhook/geom"
	"plumbhook/takeoff"
)

// BidPiece is one piece of a bid: what the drawing calls it, how many lifts of it
// there are, and how to read it. Open is called once, by one of several goroutines.
type BidPiece struct {
	Mark     string
	Quantity int
	File     string
	Rough    bool // no take-off stands behind it
	Assumed  []string
	Inputs   []takeoff.Input
	Open     func() (*takeoff.Load, error)
}

// BidOptions are what the estimator settles for the whole job. Zero values take
// the defaults below, and each use of one is among the assumptions.
type BidOptions struct {
	Options
	Rates        *takeoff.Rates // nil: no prices
	Days         int            // of the job; 0: from lifts and hours
	HoursPerLift float64
	HoursPerDay  float64
	Crew         int
	Strict       bool // count every warning of a piece as not acceptable
	workers      int  // 0: one for each processor
}

// Defaults of a bid: common practice, no source.
const (
	usualHoursPerLift = 1.5 // rig, lift, land, let go
	usualHoursPerDay  = 8
	usualCrew         = 3 // two riggers and one who gives the signals
	daysInWeek        = 5 // working days that a week of hire covers
)

// BidResult answers: what rigging does this list of lifts take, and what does it
// cost?
type BidResult struct {
	Header
	Pieces     []BidRow      `json:"pieces"` // in the order of their marks
	Governing  *BidGoverning `json:"governing"`
	Gear       []GearLine    `json:"gear"` // the matched set
	Crane      *CraneLine    `json:"crane"`
	Totals     BidTotals     `json:"totals"`
	Missing    []MissingRate `json:"missing_rates"`
	Exclusions []string      `json:"exclusions"`
	RatesFile  string        `json:"rates_file,omitempty"`
	Changes    *BidChanges   `json:"changes,omitempty"` // against a former bid
}

// BidRow is one piece.
type BidRow struct {
	Mark        string          `json:"mark"`
	Quantity    int             `json:"quantity"`
	File        string          `json:"file"`
	Name        string          `json:"name"`
	Drawing     string          `json:"drawing,omitempty"`
	SHA256      string          `json:"input_sha256"`
	Rough       bool            `json:"rough"`
	Error       string          `json:"error,omitempty"` // it can't be read or rigged; then there are no figures
	Acceptable  bool            `json:"acceptable"`
	Reasons     []string        `json:"reasons"`
	Warnings    int             `json:"warnings"`
	Warned      []string        `json:"warning_texts"`
	Weight      WeightRange     `json:"weight"`
	CGM         [3]float64      `json:"cg_m"`
	Legs        int             `json:"legs"`
	Bars        int             `json:"bars"`
	Hooks       int             `json:"hooks"` // 2: the gross load is that of the one that carries more
	Leg         string          `json:"governing_leg"`
	TensionKN   float64         `json:"worst_tension_kn"`
	FlattestDeg float64         `json:"flattest_leg_from_horizontal_deg"`
	RequiredKg  float64         `json:"required_kg"` // vertical rating of the governing leg, without the family's own factors
	LengthsM    []float64       `json:"lengths_m"`
	Sling       *BidSling       `json:"sling"` // null: none may be used or none is large enough
	GrossKg     float64         `json:"gross_kg"`
	OfCrane     *float64        `json:"used_of_own_crane"` // of the crane that the load file states
	OfClass     *float64        `json:"used_of_class"`     // of the crane class of the bid
	Risk        *BidRisk        `json:"risk"`
	PriceAlone  *float64        `json:"price_bought_alone"` // of its slings, shackles and bars, each bought for it
	Assumed     []string        `json:"assumed"`
	Inputs      []takeoff.Input `json:"inputs"`

	fault    error
	demands  []gearDemand
	aloneGap bool // some of its gear has no price to buy
}

// BidSling is the sling of a piece.
type BidSling struct {
	Family      string  `json:"family"`
	Material    string  `json:"material"`
	Use         string  `json:"use"`
	Size        string  `json:"size"`
	RatedKg     float64 `json:"rated_kg"`
	RequiredKg  float64 `json:"required_kg"` // its own factors in
	Utilisation float64 `json:"utilisation"`
	Basis       string  `json:"basis"`
}

// BidGoverning is the piece that asks most of the rigging.
type BidGoverning struct {
	Mark     string `json:"mark"`
	Why      string `json:"why"`
	Heaviest string `json:"heaviest"`
}

// Bid weighs and rigs all pieces, several at a time, and prices them together. The
// result is in the order of the marks, whatever the order of the pieces. A piece
// that can't be read or rigged stands in its row with what is wrong, and hides no
// other.
//
// The error is a fault of the rates.
func Bid(pieces []BidPiece, o BidOptions) (BidResult, error) {
	b := BidResult{Header: Header{Schema: Schema, Load: "bid", Verdict: Verdict{Acceptable: true, Reasons: []string{}}, Warnings: []Warning{}, Errors: []Problem{}, Assumptions: []string{}},
		Gear: []GearLine{}, Missing: []MissingRate{}, Exclusions: []string{}}
	if err := checkRates(o.Rates); err != nil {
		return b, err
	}
	b.Pieces = bidRows(pieces, o)
	b.InputSHA256 = b.fingerprint(o.Rates)
	b.judge()
	b.govern()
	b.price(o)
	b.gather(o)
	return b, nil
}

// bidRows works the pieces, bounded to the processors that there are.
func bidRows(pieces []BidPiece, o BidOptions) []BidRow {
	rows := make([]BidRow, len(pieces))
	workers := o.workers
	if workers == 0 {
		workers = runtime.GOMAXPROCS(0)
	}
	geom.ShareOut(len(pieces), workers, func() func(int) {
		return func(i int) { rows[i] = bidRow(pieces[i], o) }
	})
	sort.SliceStable(rows, func(i, j int) bool {
		if rows[i].Mark != rows[j].Mark {
			return rows[i].Mark < rows[j].Mark
		}
		return rows[i].File < rows[j].File
	})
	return rows
}

// fingerprint is a hash over those of the inputs.
func (b *BidResult) fingerprint(rates *takeoff.Rates) string {
	sum := sha256.New()
	for _, p := range b.Pieces {
		fmt.Fprintf(sum, "%q %d %s\n", p.Mark, p.Quantity, p.SHA256)
	}
	if rates != nil {
		fmt.Fprintln(sum, rates.SHA256)
		b.RatesFile = rates.File
	}
	return hex.EncodeToString(sum.Sum(nil))
}

// judge takes what is not acceptable of a piece into the verdict of the whole.
func (b *BidResult) judge() {
	for _, p := range b.Pieces {
		switch {
		case p.Error != "":
			b.refuse("%s: not in the figures: %s", p.Mark, p.Error)
		case !p.Acceptable:
			for _, reason := range p.Reasons {
				b.refuse("%s: %s", p.Mark, reason)
			}
		}
		b.Errors = append(b.Errors, problemsOf(p.fault)...)
	}
}

// Faulty tells whether some piece could not be read, and whether that is a fault
// of the program.
func (b BidResult) Faulty() (input, program bool) {
	for _, p := range b.Pieces {
		if p.fault != nil {
			input = true
			program = program || isProgram(p.fault)
		}
	}
	return input, program
}
