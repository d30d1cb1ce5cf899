package logs

// A stretch of a log for the eye: no more points than a screen has columns.

import (
	"math"
	"sort"
)

// Window is a stretch of a log, thinned so that no peak is lost.
type Window struct {
	Stamps []int64
	Values [][]float64 // by series of the log; NaN where there is no reading
}

const (
	standsFor = 2 * 3600 // s for which a reading stands, where a logger writes only what changes
	tornSteps = 3        // without a row before a line is torn
)

// Window gives the rows between two times, or where they are too many the lowest and the
// highest reading of each of so many equal parts, in the order in which they came.
//
// Units: stamps in s; readings in SI as in the log.
// Range: any times; at least one part. A stretch without rows is empty.
// Source: own method.
func (l *Log) Window(from, to int64, parts int) Window {
	parts = max(1, parts)
	first := sort.Search(len(l.Stamps), func(i int) bool { return l.Stamps[i] >= from })
	end := sort.Search(len(l.Stamps), func(i int) bool { return l.Stamps[i] > to })
	if first >= end {
		return Window{Values: make([][]float64, len(l.Series))}
	}
	if end-first <= 2*parts {
		return l.rowsBetween(first, end)
	}
	return l.thinned(first, end, from, to, parts)
}

// rowsBetween gives rows as they are, with an empty one in each gap.
func (l *Log) rowsBetween(first, end int) Window {
	w := Window{Values: make([][]float64, len(l.Series))}
	torn := make([]bool, end-first)
	for i := first; i < end; i++ {
		if i > first && l.Stamps[i]-l.Stamps[i-1] > max(standsFor, tornSteps*l.Step) {
			torn[i-first] = true
			w.Stamps = append(w.Stamps, l.Stamps[i-1]+l.Step)
		}
		w.Stamps = append(w.Stamps, l.Stamps[i])
	}
	for k, s := range l.Series {
		out := make([]float64, 0, len(w.Stamps))
		last := first
		for i := first; i < end; i++ {
			if torn[i-first] {
				out = append(out, math.NaN())
			}
			v := s.Values[i]
			if !math.IsNaN(v) {
				last = i
			} else if l.Stamps[i]-l.Stamps[last] <= standsFor {
				v = s.Values[last]
			}
			out = append(out, v)
		}
		w.Values[k] = out
	}
	return w
}

// thinned gives two points for each part of the time.
func (l *Log) thinned(first, end int, from, to int64, parts int) Window {
	from, to = max(from, l.Stamps[first]), min(to, l.Stamps[end-1])
	span := to - from + 1
	w := Window{Stamps: make([]int64, 0, 2*parts), Values: make([][]float64, len(l.Series))}
	borders := make([]int, 1, parts+1)
	borders[0] = first
	for p := range parts {
		begin, next := from+span*int64(p)/int64(parts), from+span*int64(p+1)/int64(parts)
		w.Stamps = append(w.Stamps, begin, begin+(next-begin)/2)
		i := borders[p]
		for i < end && l.Stamps[i] < next {
			i++
		}
		borders = append(borders, i)
	}
	for k, s := range l.Series {
		out := make([]float64, 0, 2*parts)
		last, seen := math.NaN(), int64(math.MinInt64)
		for p := range parts {
			low, high := -1, -1
			for i := borders[p]; i < borders[p+1]; i++ {
				v := s.Values[i]
				if math.IsNaN(v) {
					continue
				}
				last, seen = v, l.Stamps[i]
				if low < 0 || v < s.Values[low] {
					low = i
				}
				if high < 0 || v > s.Values[high] {
					high = i
				}
			}
			switch {
			case low >= 0:
				a, b := min(low, high), max(low, high)
				out = append(out, s.Values[a], s.Values[b])
			case seen > math.MinInt64 && w.Stamps[2*p+1]-seen <= max(standsFor, tornSteps*l.Step):
				out = append(out, last, last)
			default:
				out = append(out, math.NaN(), math.NaN())
			}
		}
		w.Values[k] = out
	}
	return w
}
