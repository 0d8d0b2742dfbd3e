"""Expected values of CurveLimitsTest, RatioOfGeometricMeansTest and FollowProgressTest. NumPy 2, SciPy 1.17."""
import numpy as np
import scipy.stats as st

y = np.array([12.1, 10.4, 9.9, 8.7, 9.2, 8.1, 7.7, 7.9, 7.2, 7.5, 6.6, 6.9])
x = np.log2(np.arange(1, 13))
for name, v, back in (("log-linear", y, lambda a: a), ("power", np.log(y), np.exp)):
    r = st.linregress(x, v)
    n = len(x)
    s = np.sqrt(((v - r.intercept - r.slope * x) ** 2).sum() / (n - 2))
    t = st.t.ppf(0.975, n - 2)
    for a in (1, 5, 12):
        f = r.intercept + r.slope * np.log2(a)
        h = t * s * np.sqrt(1 / n + (np.log2(a) - x.mean()) ** 2 / ((x - x.mean()) ** 2).sum())
        print(name, a, back(f - h), back(f + h))
    print(name, "per doubling", back(r.slope))
w = st.ttest_ind(np.log(y[6:]), np.log(y[:6]), equal_var=False)
print("latest 6 of 12:", np.exp(w.confidence_interval(0.95).low), np.exp(w.confidence_interval(0.95).high),
      st.gmean(y[6:]), st.gmean(y[:6]), st.gmean(y[6:]) / st.gmean(y[:6]))
