#include "numeric/least_squares.hpp"

#include <algorithm>
#include <cmath>
#include <unsupported/Eigen/LevenbergMarquardt>

#include <Eigen/Dense>

#include "base/contract.hpp"

namespace tideover::numeric {

namespace {

using Eigen::MatrixXd;
using Eigen::VectorXd;

class Residuals : public Eigen::DenseFunctor<double> {
 public:
  Residuals(const LeastSquaresTask& task, int parameters)
      : DenseFunctor<double>(parameters, task.residual_count), task_(task) {}

  int operator()(const VectorXd& at, VectorXd& out) const {
    task_.residuals({at.data(), static_cast<std::size_t>(at.size())},
                    {out.data(), static_cast<std::size_t>(out.size())});
    return 0;
  }

  int df(const VectorXd& at, MatrixXd& slopes) const {
    VectorXd here(values());
    VectorXd there(values());
    (*this)(at, here);
    VectorXd moved = at;
    for (Eigen::Index k = 0; k < at.size(); ++k) {
      const double step = step_share * std::max(1.0, std::fabs(at[k]));
      moved[k] = at[k] + step;
      (*this)(moved, there);
      slopes.col(k) = (there - here) / step;
      moved[k] = at[k];
    }
    return 0;
  }

 private:
  static constexpr double step_share = 1e-6;
  const LeastSquaresTask& task_;
};

/// Sum over the groups of g g^T, g the group's part of J^T r.
MatrixXd spread_of_groups(const MatrixXd& slopes, const VectorXd& residuals,
                          const std::vector<int>& group) {
  int groups = 0;
  for (const int g : group) groups = std::max(groups, g + 1);
  MatrixXd pulls = MatrixXd::Zero(slopes.cols(), groups);
  for (Eigen::Index row = 0; row < slopes.rows(); ++row) {
    const int g = group[static_cast<std::size_t>(row)];
    if (g >= 0) pulls.col(g) += slopes.row(row).transpose() * residuals[row];
  }
  return pulls * pulls.transpose();
}

std::vector<double> errors_of(const MatrixXd& slopes, const VectorXd& residuals,
                              std::vector<int> group) {
  if (group.empty()) {
    group.resize(static_cast<std::size_t>(slopes.rows()));
    for (std::size_t row = 0; row < group.size(); ++row) group[row] = static_cast<int>(row);
  }
  const MatrixXd information = slopes.transpose() * slopes;
  const MatrixXd bread = information.completeOrthogonalDecomposition().pseudoInverse();
  const MatrixXd seen = bread * spread_of_groups(slopes, residuals, group) * bread;
  std::vector<double> errors(static_cast<std::size_t>(slopes.cols()));
  for (Eigen::Index k = 0; k < slopes.cols(); ++k) {
    errors[static_cast<std::size_t>(k)] = std::sqrt(std::max({bread(k, k), seen(k, k), 0.0}));
  }
  return errors;
}

}  // namespace

LeastSquaresFit fit_least_squares(const LeastSquaresTask& task, std::vector<double> start,
                                  int most_evaluations) {
  TIDEOVER_EXPECT(task.residual_count >= static_cast<int>(start.size()),
                  "as many residuals as parameters");
  const int count = static_cast<int>(start.size());
  Residuals residuals(task, count);
  VectorXd at = Eigen::Map<VectorXd>(start.data(), count);
  Eigen::LevenbergMarquardt<Residuals> search(residuals);
  search.setMaxfev(most_evaluations);
  search.setFtol(1e-7);
  search.setXtol(1e-7);
  const auto status = search.minimize(at);

  LeastSquaresFit fit;
  fit.has_settled = status == Eigen::LevenbergMarquardtSpace::RelativeReductionTooSmall ||
                    status == Eigen::LevenbergMarquardtSpace::RelativeErrorTooSmall ||
                    status == Eigen::LevenbergMarquardtSpace::RelativeErrorAndReductionTooSmall ||
                    status == Eigen::LevenbergMarquardtSpace::CosinusTooSmall;
  fit.evaluations = static_cast<int>(search.nfev());
  VectorXd left(task.residual_count);
  residuals(at, left);
  MatrixXd slopes(task.residual_count, count);
  residuals.df(at, slopes);
  fit.sum_of_squares = left.squaredNorm();
  fit.standard_errors = errors_of(slopes, left, task.group);
  fit.parameters.assign(at.data(), at.data() + at.size());
  fit.residuals.assign(left.data(), left.data() + left.size());
  return fit;
}

double held_back(double residual, double knee) {
  const double size = std::fabs(residual);
  if (size <= knee) return residual;
  return std::copysign(std::sqrt(2.0 * knee * size - knee * knee), residual);
}

}  // namespace tideover::numeric
