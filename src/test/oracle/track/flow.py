# Reference for OpticalFlowTest: pyramidal Lucas-Kanade of OpenCV (cv2.calcOpticalFlowPyrLK, window 21x21, 3 levels,
# at most 30 iterations, 0.01 pixel) on two pictures that OpticalFlowTest draws by the same formula, 8 bits.
# Written with Python 3.11.7, OpenCV 4.14.0, numpy 2.4.6:  python flow.py > ../../resources/org/sideport/media/track/flow.csv
import numpy as np
import cv2

W, H = 200, 160
CASES = [(0.37, -0.61, 1.0, 0.0), (3.4, 2.2, 1.0, 0.0), (-9.5, 6.25, 1.0, 0.0), (1.5, -0.5, 1.02, 0.015)]


def scene(x, y):
    return np.rint(120 + 40 * np.sin(0.21 * x + 0.13 * y) + 35 * np.sin(0.09 * x - 0.27 * y + 1)
                   + 25 * np.cos(0.05 * x * 1.7 + 0.11 * y + 2))


def picture(dx, dy, scale, turn):
    y, x = np.mgrid[0:H, 0:W].astype(float)
    # the place of the scene that is seen at (x, y) after turning and scaling about the middle and moving by (dx, dy)
    u, v = x - W / 2 - dx, y - H / 2 - dy
    c, s = np.cos(turn), np.sin(turn)
    return scene((c * u + s * v) / scale + W / 2, (-s * u + c * v) / scale + H / 2).astype(np.uint8)


print("dx,dy,scale,turn,x,y,flow_x,flow_y")
first = picture(0, 0, 1, 0)
points = [(x, y) for y in range(40, 121, 20) for x in range(40, 161, 20)]
for case in CASES:
    p = np.array(points, dtype=np.float32).reshape(-1, 1, 2)
    q, ok, _ = cv2.calcOpticalFlowPyrLK(first, picture(*case), p, None, winSize=(21, 21), maxLevel=2,
                                        criteria=(cv2.TERM_CRITERIA_EPS | cv2.TERM_CRITERIA_COUNT, 30, 0.01))
    for (x, y), there, good in zip(points, q.reshape(-1, 2), ok.ravel()):
        assert good
        print("%g,%g,%g,%g,%d,%d,%.5f,%.5f" % (*case, x, y, there[0] - x, there[1] - y))
