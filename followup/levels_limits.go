package followup

// Where a supply stops following the weather: held by a limit, or by a fire that gives
// no more.

import (
	"math"
	"slices"
)

const (
	fromMiddle = 0.30 // of the hours, from the cold: where the line is begun
	toMiddle   = 0.85
	breaksAway = 1.2 // K of a kelvin's median from the line, twice running: it has broken away
	noise      = 0.1 // K², of a median: what no break needs to explain
	endPenalty = 2.0 // a level end must halve what is unexplained
	flatShare  = 0.4 // of the line's slope: less is a limit
)

// bin is the hours of one kelvin outdoors.
type bin struct{ x, y, w float64 }

// bins gives the median supply of each kelvin with at least three hours, ascending.
func bins(hs []curveHour) []bin {
	all := map[int][]float64{}
	for _, h := range hs {
		k := int(math.Floor(h.out))
		all[k] = append(all[k], h.y)
	}
	var out []bin
	for k, v := range all {
		if len(v) >= 3 {
			out = append(out, bin{float64(k) + 0.5, median(v), float64(len(v))})
		}
	}
	slices.SortFunc(out, func(a, b bin) int { return int(math.Round(a.x - b.x)) })
	return out
}

// follows gives the outdoor temperatures between which the supply keeps to one line. It
// begins in the middle of the hours and goes outwards, fitting anew with every kelvin,
// until the supply falls behind in the cold, or stays up in mild weather, twice running.
func follows(hs []curveHour) (from, to float64) {
	b := bins(hs)
	from, to = math.Inf(-1), math.Inf(1)
	if len(b) < 9 {
		return from, to
	}
	first, last := levelEnds(b)
	if first > 0 {
		from = b[first].x - 0.5
	}
	if last < len(b)-1 {
		to = b[last].x + 0.5
	}
	b = b[first : last+1]
	total, sum := 0.0, 0.0
	for _, v := range b {
		total += v.w
	}
	lo, hi := -1, len(b)-1
	for i, v := range b {
		if sum += v.w; lo < 0 && sum >= fromMiddle*total {
			lo = i
		}
		if sum >= toMiddle*total {
			hi = i
			break
		}
	}
	lo = max(0, min(lo, len(b)-5))
	hi = min(max(hi, lo+4), len(b)-1)
	off := func(i int) float64 { return b[i].y - lineOf(b[lo:hi+1]).at(b[i].x) }
	for lo > 0 {
		if off(lo-1) < -breaksAway && (lo < 2 || off(lo-2) < -breaksAway) {
			from = b[lo].x - 0.5
			break
		}
		lo--
	}
	for hi < len(b)-1 {
		if off(hi+1) > breaksAway && (hi+2 >= len(b) || off(hi+2) > breaksAway) {
			to = b[hi].x + 0.5
			break
		}
		hi++
	}
	return from, to
}

// levelEnds looks for a line between two breaks that is level beyond them, and gives the
// bins of the breaks: the ends where a level end would not explain much more. Three
// kelvins at least make one.
func levelEnds(b []bin) (first, last int) {
	n := len(b)
	least := clampedSum(b, 0, n-1) + noise*weightOf(b)
	first, last = 0, n-1
	for i := 0; i < n-5; i++ {
		for j := i + 5; j < n; j++ {
			if i > 0 && i < 3 || j < n-1 && j > n-4 {
				continue
			}
			penalty := 1.0
			if i > 0 {
				penalty *= endPenalty
			}
			if j < n-1 {
				penalty *= endPenalty
			}
			if s := (clampedSum(b, i, j) + noise*weightOf(b)) * penalty; s < least {
				least, first, last = s, i, j
			}
		}
	}
	return first, last
}

func weightOf(b []bin) float64 {
	w := 0.0
	for _, v := range b {
		w += v.w
	}
	return w
}

// clampedSum is the weighted sum of squares about a line through bins i to j that is
// level beyond them.
func clampedSum(b []bin, i, j int) float64 {
	line := lineOf(b[i : j+1])
	sum := 0.0
	for _, v := range b {
		e := v.y - line.at(math.Min(math.Max(v.x, b[i].x), b[j].x))
		sum += v.w * e * e
	}
	return sum
}

// lineOf is the weighted line through bins.
func lineOf(b []bin) straight {
	var sw, sx, sy, sxx, sxy float64
	for _, v := range b {
		sw += v.w
		sx += v.w * v.x
		sy += v.w * v.y
		sxx += v.w * v.x * v.x
		sxy += v.w * v.x * v.y
	}
	d := sw*sxx - sx*sx
	if d <= 0 {
		return straight{sy / sw, 0}
	}
	s := straight{b: (sw*sxy - sx*sy) / d}
	s.a = (sy - s.b*sx) / sw
	return s
}

// flat tells whether hours beyond the line keep to one supply.
func flat(hs []curveHour, slope float64) bool {
	return math.Abs(robustLine(hs).b) < flatShare*math.Abs(slope)
}
