package year

// The house and its plant as the steps see them: plain numbers in SI, in slices that are
// walked in order.

// roomNode is a room with its fabric. Conductances in W/K, temperatures in K.
type roomNode struct {
	air                     float64 // temperature
	convected, radiated     float64 // J from emitters, since the air and since the mass moved
	airSum, airMean         float64 // of the steps since the mass moved
	held                    float64 // W from fabric and slabs, were the air at 0 K, and from other rooms
	toMass                  float64 // from the air to fabric and slabs
	open                    float64 // to the common mean of the rooms
	airGain                 float64 // sun, people and appliances of this hour, W
	airInv                  float64 // one over the capacity, K/J
	airOut, airFix          float64 // to outdoors, to steady places …
	airBoth                 float64 // … to both …
	airHeld                 float64 // … and what comes from those were the air at 0 K, W
	airingAbove, airingMost float64
	shadeAbove, shadeLeaves float64
	ideal                   bool    // whether anything holds the air
	idealHeat, idealCool    float64 // temperatures held at any cost, ±∞ for none

	// The same of the first and second fabric; one over the capacity is 0 for a fabric
	// that is not there.
	near, far                  float64
	nearInv, farInv            float64
	nearOut, farOut            float64
	nearFix, farFix            float64
	nearHeld, farHeld          float64
	airNear, airFar, nearFar   float64
	nearGain, farGain          float64
	airPart, nearPart, farPart float64 // how radiant heat divides

	set, lower float64 // set-point, and by how much the program lowers it
	stat       roomStat
}

// roomStat is what is kept of a room over the run.
type roomStat struct {
	low, high, sum, highHeated float64
	heated, cooled             float64 // J, by the ideal heater and cooler
	lowAt                      float64 // s since the beginning
	below, above               int     // judgements
	belowDegrees, aboveDegrees float64 // K·judgements
	belowToday, aboveToday     bool
	daysBelow, daysAbove       int
}

// doorNode joins the air of two rooms.
type doorNode struct {
	a, b *roomNode
	g    float64
}

// powers holds M^(n−1) over the excess M in pieces of half a kelvin, each a straight
// line at0 + slope·M.
type powers [excessSteps + 1]struct{ at0, slope float64 }

const (
	excessSteps = 511 // a power of two less one, so that a mask keeps the index within
	perKelvin   = 2.0
)

// radiatorNode is the water and metal of an emitter at their mean temperature.
type radiatorNode struct {
	room     *roomNode
	t        float64
	inv      float64 // one over the capacity
	factor   float64 // K of the law, with its flow effect, W/K^n
	law      *powers
	offset   float64 // of the air that enters, below the room
	flow     float64 // W/K, valve open
	open     float64 // of the valve, 0 to 1
	halfPer  float64 // factor/(2·flow·open): half the transfer units at M^(n−1) = 1
	airShare float64 // of its heat, that warms the air at once
	radiant  float64 // share of its heat that divides over air and fabric as the room has it
	behind   float64 // lost for each watt to the room
	behindG  float64
	behindT  float64
	freePhi  float64 // see describeReturn: while the water is warm throughout
	phi      float64 // and in this step
	intake   float64 // flow·(1 + φ) in this step, W/K
	seen     float64 // its water as the intake of this step sees it, see sample
	gave     float64 // in the step before, W
	leaks    bool    // heat goes behind
	inlet    float64 // mean inlet of the step before
	valve    ValveKind
	band     float64
	fan      float64 // electricity of a fan coil, W
}

// slabNode is a heated floor.
type slabNode struct {
	room     *roomNode
	n, tube  int
	t        [mostLayers]float64
	inv      [mostLayers]float64
	g        [mostLayers]float64 // to the next layer
	up       float64
	downOut  float64
	downFix  float64
	downHeld float64
	flow     float64
	open     float64
	phi      float64 // as of a radiator: the exchange less one
	heat     float64 // J into the tube layer in this step
	valve    ValveKind
	band     float64
}

// circuitNode is a circuit with the water in its pipes. The tank's is the last.
type circuitNode struct {
	radiators []radiatorNode
	slabs     []slabNode
	isTank    bool
	series    bool
	mixed     bool
	moves     bool // some valve moves
	wanted    bool // by season, program and frost guard
	stirred   bool // only its pump is, by the frost guard outdoors

	thermostat float64 // band of its room thermostats, 0 for none
	calls      float64 // 1 while they want heat

	back      float64 // temperature of the water in the pipes back to the boiler
	inv       float64
	flow      float64 // of all that is open, W/K
	flowInv   float64 // and one over it
	share     float64 // of the flow that comes from the boiler, 1 without mixing valve
	move      float64 // of the mixing valve in a second
	on        bool
	set       float64
	above     float64 // boiler above set
	supply    float64
	constant  float64 // the emitters' return = constant + slope·inlet
	slope     float64
	inletSum  float64
	renewed   float64 // share of the water in the pipes that a step of the plant renews
	waited    float64 // s since the radiators moved, while the circuit rests
	pump      float64
	runs      float64 // s
	fans      float64 // W, of all fan coils whose valves are open
	blown     float64 // J, by those fans
	curve     *supplyCurve
	held      float64
	least     float64 // limits of the supply
	most      float64
	reference *roomNode
	influence float64
	limit     float64
	program   weekly
	holdBelow float64 // outdoors, K: colder than that nothing is lowered
	holding   bool
	lower     float64
	off       bool
	asleep    bool // stopped until the reference room has cooled
	frost     bool
	rooms     []*roomNode
}

// supplyCurve is a heating curve at every quarter of a kelvin.
type supplyCurve [curveSpan*4 + 2]float64

func (c *supplyCurve) at(outdoor float64) float64 {
	x := (outdoor - float64(curveFrom)) * 4
	x = min(max(x, 0), float64(len(c)-2))
	i := int(x)
	f := x - float64(i)
	return c[i] + f*(c[i+1]-c[i])
}

// boilerNode is the water and metal of the boiler.
type boilerNode struct {
	t, inv        float64
	flow, flowInv float64
	direct        bool // no coupling: the circuits' pumps move the water
	standby       float64
	room          float64
	least, most   float64
	heating       float64 // the most while no tank is charged
	limit         float64 // and in this step
	hottest       float64
	differential  float64
	rest          float64
	gain          float64 // W/K of the burner's control
	integral      float64 // W/(K·s)
	base          float64 // W, what the control has learnt to be needed
	beyond        bool

	burning bool
	blocked bool // by its limit
	dead    bool // does not start any more
	rested  float64
	ran     float64
	output  float64
	call    bool
	set     float64

	supply  float64 // to the circuits
	back    float64 // from them
	burnt   float64 // J since it was booked
	burnFor float64 // s
	backSum float64 // K·s while burning
}

type tankNode struct {
	n, coil, sensor int
	t               [mostTankLayers]float64
	inv             float64
	loss            float64 // of a layer, W/K
	room            float64
	cold            float64
	perVolume       float64 // J/(m³·K)
	volume          float64 // of a layer
	phi             float64 // as of a slab
	coilMean        float64 // of the layers with coil
	heat            float64 // J from the coil in this step
	set, low        float64
	supply          float64
	priority        bool
	limit           float64
	wants, charging bool
	ran, rests      float64
	draws           *draws
}
